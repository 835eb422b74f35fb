// Streams, signals and memory of the process, round the command line.
#include <fcntl.h>
#include <malloc.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <exception>
#include <new>

#include "cli/command_line.h"
#include "cli/output.h"

namespace {

using soundsill::cli::ExitStatus;

/// Where a stream is closed, the next file that is opened would become it, and get what is told to the person. What is
/// put there instead takes no writing, so that the loss is noticed.
void occupy_streams() {
  for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream)
    if (::fcntl(stream, F_GETFD) < 0 && errno == EBADF) (void)::open("/dev/null", O_RDONLY);
}

/// Memory that a case gives back goes to the next one, not to the system and back.
void keep_memory() {
  constexpr int trimmed_beyond = 32'000'000, grown_by = 1'000'000, mapped_from = 16'000'000;
  ::mallopt(M_TRIM_THRESHOLD, trimmed_beyond);
  ::mallopt(M_TOP_PAD, grown_by);
  ::mallopt(M_MMAP_THRESHOLD, mapped_from);
}

}  // namespace

int main(int argc, char** argv) {
  keep_memory();
  // A reader that goes away, and a file that may grow no more, are failed writes, not the end of the program.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  occupy_streams();
  try {
    soundsill::cli::CommandLine line;
    soundsill::cli::declare_commands(line);
    const int status = line.run(argc, argv);
    const std::string lost = soundsill::cli::lost_output();
    if (lost.empty()) return status;
    return static_cast<int>(soundsill::cli::refuse("standard output cannot be written: " + lost));
  } catch (const std::bad_alloc&) {
    std::fputs("soundsill: there is not enough memory; nothing more was written\n", stderr);
    return static_cast<int>(ExitStatus::usage);
  } catch (const std::exception& e) {
    std::fprintf(stderr, "soundsill: this is a fault in the program, please report it: %s\n", e.what());
    return static_cast<int>(ExitStatus::our_fault);
  }
}
