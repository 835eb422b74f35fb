#include <atomic>
#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>

#include "cli/in_order.h"

using soundsill::cli::in_order;

TEST_CASE("results are told in order, whatever the number of threads") {
  for (const unsigned threads : {1U, 2U, 3U, 16U}) {
    std::atomic<unsigned> workers = 0;
    std::string told;
    const auto make_work = [&] {
      ++workers;
      return [](std::size_t i) {
        volatile std::size_t busy = (i * 7919) % 5000;
        while (busy > 0) busy = busy - 1;
        return i;
      };
    };
    in_order(200, threads, make_work, [&](std::size_t i) { told += std::to_string(i) + ","; });
    std::string wanted;
    for (std::size_t i = 0; i < 200; ++i) wanted += std::to_string(i) + ",";
    CHECK(told == wanted);
    CHECK(workers == threads);
  }
}

TEST_CASE("what a worker or the teller throws ends all and is thrown on") {
  const auto plain = [] { return [](std::size_t i) { return i; }; };
  const auto failing = [] {
    return [](std::size_t i) {
      if (i == 50) throw std::runtime_error("fifty");
      return i;
    };
  };
  for (const unsigned threads : {1U, 4U}) {
    std::size_t told = 0;
    CHECK_THROWS_WITH(in_order(1000, threads, failing, [&](std::size_t) { ++told; }), "fifty");
    CHECK(told <= 50);
    CHECK_THROWS_WITH(in_order(1000, threads, plain,
                               [](std::size_t i) {
                                 if (i == 3) throw std::runtime_error("three");
                               }),
                      "three");
  }
}

TEST_CASE("nothing to do is done at once") {
  in_order(
      0, 1, [] { return [](std::size_t i) { return i; }; }, [](std::size_t) { FAIL(); });
}
