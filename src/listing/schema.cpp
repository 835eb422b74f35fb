// Serves listing/data.h. The key tables of the case file as a JSON Schema, for editors.
#include <nlohmann/json.hpp>

#include "casefile/keys.h"
#include "listing/data.h"

namespace soundsill::listing {
namespace {

using Json = nlohmann::ordered_json;
using yaml::Shape;

constexpr const char* draft = "https://json-schema.org/draft/2020-12/schema";

Json ref(const std::string& name) { return {{"$ref", "#/$defs/" + name}}; }
Json pattern(const char* of) { return {{"type", "string"}, {"pattern", of}}; }

/// Values that YAML readers give as text or as a number, whichever it looks like.
Json text_or_number(const char* of) {
  return {{"type", Json::array({"string", "number"})}, {"pattern", of}, {"minimum", 0}};
}

Json kinds() {
  Json all;
  all["text"] = {{"type", Json::array({"string", "number", "boolean"})}, {"pattern", "\\S"}, {"maxLength", 4000}};
  all["code"] = pattern("\\S");
  all["yes-no"] = {
      {"anyOf", Json::array({{{"type", "boolean"}},
                             pattern("^([Yy][Ee][Ss]|[Nn][Oo]|[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee])$")})}};
  all["whole"] = {
      {"type", Json::array({"string", "integer"})}, {"pattern", "^[0-9]{1,5}$"}, {"minimum", 0}, {"maximum", 99999}};
  all["number"] = text_or_number("^[0-9]{0,6}(\\.[0-9]{0,4})?$");
  all["money"] = text_or_number("^\\$?[0-9][0-9,]*(\\.[0-9]{1,2})?$");
  all["length"] = text_or_number("^\\.?[0-9][^A-Z_:;$%&@#=+*]*$");
  all["percent"] = {{"type", Json::array({"string", "number"})},
                    {"pattern", "^[0-9]*\\.?[0-9]* *%?$"},
                    {"minimum", 0},
                    {"maximum", 100}};
  all["date"] = {{"type", "string"}, {"format", "date"}, {"pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};
  all["time"] = pattern("^[0-9]{1,2}:[0-9]{2}$");
  Json coordinate = text_or_number("^-?\\.?[0-9].*$");
  coordinate.erase("minimum");
  all["point"] = {{"type", "array"}, {"minItems", 2}, {"maxItems", 2}, {"items", coordinate}};
  const Json wall = {{"anyOf", Json::array({{{"type", "integer"}, {"minimum", 1}, {"maximum", 9999}},
                                            pattern("^ *(wall +)?[0-9]{1,4}( +.+)?$")})}};
  const Json pier = {{"anyOf", Json::array({{{"type", "integer"}, {"minimum", 1}, {"maximum", 9999}},
                                            pattern("^ *[0-9]{1,4}( +to +[0-9]{1,4})? *$")})}};
  for (const auto& [name, one] : {std::pair{"walls", wall}, std::pair{"piers", pier}})
    all[name] = {
        {"anyOf", Json::array({{{"enum", Json::array({"all", "none"})}}, one, {{"type", "array"}, {"items", one}}})}};
  // A bare yes or no answers no danger.
  const Json place = {{"allOf", Json::array({ref("text"), {{"not", ref("yes-no")}}})}};
  all["answer"] = {{"anyOf", Json::array({place, {{"type", "array"}, {"minItems", 1}, {"items", ref("text")}}})}};
  return all;
}

/// "a finding" and "the `case` block" without article, quotes and "block": how a definition is named.
std::string plain(std::string_view name) {
  std::string out;
  for (const char c : name)
    if (c != '`') out += c == ' ' ? '-' : c;
  for (const std::string_view article : {"a-", "an-", "the-"})
    if (out.starts_with(article)) {
      out.erase(0, article.size());
      break;
    }
  if (out.ends_with("-block")) out.erase(out.size() - 6);
  return out;
}

class Maker {
 public:
  Json definitions = kinds();

  Json block(const yaml::Block& of) {
    Json properties = Json::object(), required = Json::array();
    for (const yaml::Key& key : of.keys) {
      Json value = many(key.shape);
      value["description"] = std::string(key.doc) + (key.when.empty() ? "" : "; needed " + std::string(key.when));
      properties[std::string(key.name)] = std::move(value);
      if (key.need == yaml::Need::always) required.push_back(std::string(key.name));
    }
    Json out = {{"type", "object"}, {"additionalProperties", false}, {"properties", std::move(properties)}};
    if (!required.empty()) out["required"] = std::move(required);
    return out;
  }

 private:
  Json many(const Shape& shape) {
    Json item = one(shape);
    if (!shape.list) return item;
    return {{"anyOf", Json::array({item, {{"type", "array"}, {"items", item}}})}};
  }

  Json one(const Shape& shape) {
    using Kind = Shape::Kind;
    constexpr const char* names[] = {"text",  "code",   "yes-no",  "whole", "number",
                                     "money", "length", "percent", "date",  "time"};
    switch (shape.kind) {
      case Kind::choice: {
        Json words = Json::array();
        for (const std::string_view word : shape.choices) words.push_back(std::string(word));
        return {{"enum", std::move(words)}};
      }
      case Kind::free:
        return Json::parse(shape.schema);
      case Kind::block: {
        const std::string name = plain(shape.block().name);
        if (!definitions.contains(name)) {
          definitions[name] = nullptr;  // met again while it is made: refer to it
          definitions[name] = block(shape.block());
        }
        return ref(name);
      }
      default:
        return ref(names[static_cast<std::size_t>(shape.kind)]);
    }
  }
};

}  // namespace

std::string case_schema() {
  Maker maker;
  Json out = {{"$schema", draft}, {"$id", "urn:soundsill:case:1"}, {"title", "A case of soundsill"}};
  out.update(maker.block(case_keys()));
  out["properties"]["format"]["enum"] = Json::array({1, "1"});
  out["$defs"] = std::move(maker.definitions);
  return out.dump(2) + "\n";
}

}  // namespace soundsill::listing
