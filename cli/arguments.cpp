#include "cli/arguments.h"

#include <CLI/CLI.hpp>
#include <charconv>

#include "assess/travel_curves.h"
#include "cli/terminal.h"
#include "cli/words.h"
#include "measure/nearest.h"

namespace trammel::cli {
namespace {

struct CommandName {
  const char *name, *argument;
};
constexpr CommandName commands[] = {{"check", "JOB"},
                                    {"plan", "JOB"},
                                    {"rehearse", "KIT|JOB"},
                                    {"align", "JOB"},
                                    {"sign", "JOB STEP"},
                                    {"torque", "JOB FASTENER TORQUE|MEASURE"},
                                    {"found", "JOB FASTENER STATE"},
                                    {"decide", "JOB FASTENER|alignment DECISION"},
                                    {"measure", "JOB KEY=VALUE…"},
                                    {"turned", "JOB ADJUSTER=TURN…"},
                                    {"add", "JOB ENTRY"},
                                    {"undo", "JOB ENTRY"},
                                    {"release", "JOB"},
                                    {"travel", "JOB|CART"},
                                    {"survey", "FILE"},
                                    {"sheet", "JOB"},
                                    {"fastener", "TEXT"},
                                    {"study", "NAME"},
                                    {"new", "kit FOLDER"},
                                    {"explain", "CODE"}};

std::string overview() {
  std::string text = say("help-head") + "\n\n" + say("help-usage") + "\n\n";
  for (const CommandName& c : commands) {
    const std::string left = std::string("  ") + c.name + " " + c.argument;
    text +=
        left + std::string(left.size() < 22 ? 22 - left.size() : 1, ' ') + say(std::string("help-") + c.name) + "\n";
  }
  return text + "\n" + help("help-head") + "\n";
}

// One list of quantities with commas between; a fault is told with its place.
template <class Q>
std::vector<Q> list(const std::string& text, Kind kind, const std::string& option) {
  std::vector<Q> values;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const std::string item = text.substr(from, comma - from);
    const ReadResult read = read_quantity(item, kind);
    if (const auto* error = std::get_if<TextError>(&read)) {
      std::string choices;
      for (const std::string& c : error->choices) choices += (choices.empty() ? "" : ", ") + c;
      throw CLI::ValidationError(option, say("option-unreadable", {{"text", item}, {"choices", choices}}));
    }
    values.push_back(Q::from_si(std::get<Written>(read).number.si));
    from = comma + 1;
  }
  return values;
}

// "cambers=2,toe=1.5,turning=4", in minutes.
setup::ShopTimes shop_times(const std::string& text) {
  setup::ShopTimes times;
  const std::map<std::string, Time*> names = {{"cambers", &times.cambers},   {"toe", &times.toe},
                                              {"strings", &times.strings},   {"turning", &times.turning},
                                              {"touch-up", &times.touch_up}, {"roll", &times.roll}};
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const std::string item = text.substr(from, comma - from);
    const std::size_t equals = std::min(item.find('='), item.size());
    const auto found = names.find(item.substr(0, equals));
    const std::string number = item.substr(std::min(equals + 1, item.size()));
    char* end = nullptr;
    const double minutes = std::strtod(number.c_str(), &end);
    if (found == names.end() || number.empty() || *end != 0 || !(minutes >= 0.0) || minutes > 1000.0) {
      std::string choices;
      for (const auto& [name, time] : names) choices += (choices.empty() ? "" : ", ") + name;
      throw CLI::ValidationError("--times", say("times-unreadable", {{"text", item}, {"choices", choices}}));
    }
    *found->second = minutes * units::minute;
    from = comma + 1;
  }
  return times;
}

// "left.upper_arm=+6mm,left.tie_rod=-4mm"
suspension::AxleChanges changes(const std::string& text) {
  suspension::AxleChanges all;
  const std::map<std::string, Length*> places = {
      {"left.upper_arm", &all.left.upper_arm},   {"left.lower_arm", &all.left.lower_arm},
      {"left.tie_rod", &all.left.tie_rod},       {"right.upper_arm", &all.right.upper_arm},
      {"right.lower_arm", &all.right.lower_arm}, {"right.tie_rod", &all.right.tie_rod},
      {"left.strut.top", &all.left.strut_top},   {"right.strut.top", &all.right.strut_top}};
  std::vector<std::string_view> names;
  for (const auto& [name, length] : places) names.push_back(name);
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const std::string item = text.substr(from, comma - from);
    const std::size_t equals = item.find('=');
    const std::string name = item.substr(0, equals);
    const auto found = places.find(name);
    if (equals == std::string::npos || found == places.end()) {
      std::string choices;
      for (const std::string_view n : names) choices += (choices.empty() ? "" : ", ") + std::string(n);
      throw CLI::ValidationError(
          "--change", say("change-unknown",
                          {{"text", item}, {"nearest", std::string(nearest(name, names))}, {"choices", choices}}));
    }
    *found->second = list<Length>(item.substr(equals + 1), Kind::length, "--change").front();
    from = comma + 1;
  }
  return all;
}

// The options of a command, with a line of help for each.
using HelpRows = std::vector<std::pair<std::string, std::string>>;
HelpRows add_options(CLI::App& app, Asked& asked, const std::string& command,
                     std::map<std::string, std::string>& texts) {
  HelpRows rows;
  const auto flag = [&](const std::string& name, bool& value, const char* code) {
    app.add_flag(name, value);
    rows.emplace_back(name, say(code));
  };
  const auto text = [&](const std::string& name, const char* code, const std::string& shape) {
    app.add_option(name, texts[name]);
    rows.emplace_back(name + "=" + shape, say(code));
  };
  flag("--json", asked.json, "option-json");
  text("--units", "option-units", "both|metric|inch");
  if (command == "check") {
    flag("--brief", asked.brief, "option-brief");
    flag("--all", asked.all, "option-all");
  }
  if (command == "plan") {
    text("--people", "option-people", "1|2");
    flag("--brief", asked.brief, "option-plan-brief");
    flag("--resume", asked.resume, "option-resume");
  }
  if (adds_an_entry(command)) {
    text("--who", "option-who", "NAME");
    text("--when", "option-when", "DATE");
  }
  if (command == "sign") {
    text("--side", "option-side", "left|right");
    text("--evidence", "option-evidence", "TEXT");
    text("--second", "option-second", "NAME");
    text("--instead", "option-instead", "TEXT");
  }
  if (command == "add") {
    text("--evidence", "option-evidence", "TEXT");
    text("--second", "option-second", "NAME");
    text("--instead", "option-instead", "TEXT");
    text("--wrench", "option-wrench", "ID");
    text("--done-by", "option-done-by", "NAME");
    text("--done-when", "option-done-when", "DATE");
  }
  if (command == "decide") {
    text("--torque", "option-torque", "TORQUE");
    text("--answers", "option-answers", "CODE");
  }
  if (command == "torque") {
    flag("--new", asked.fresh, "option-new");
    text("--wrench", "option-wrench", "ID");
    text("--turned", "option-turned", "ANGLE");
    app.add_option("--except", asked.exceptions);
    rows.emplace_back("--except=PLACE=TORQUE", say("option-except"));
  }
  if (command == "found") text("--by", "option-by", "TEXT");
  if (command == "found" || command == "decide" || command == "undo" || command == "add")
    text("--why", "option-why", "TEXT");
  if (command == "sheet") {
    flag("--booklet", asked.booklet, "option-booklet");
    flag("--letter", asked.letter, "option-letter");
    flag("--pictures", asked.pictures, "option-pictures");
    text("--only", "option-only", "SHEET");
    text("--language", "option-language", "en|de");
    text("--into", "option-into", "FOLDER");
  }
  if (command == "new") text("--name", "option-name", "NAME");
  if (command == "survey") {
    flag("--as-cart", asked.as_cart, "option-as-cart");
    text("--into", "option-points-into", "FILE");
    text("--for", "option-for", "JOB");
  }
  if (command == "rehearse") {
    text("--spoil", "option-spoil", "N");
    text("--seed", "option-seed", "N");
  }
  if (command == "study") {
    text("--count", "option-count", "N");
    text("--carts", "option-carts", "N");
    text("--floor", "option-floor", "bare|plates");
    text("--fleet", "option-fleet", "KIND");
    text("--seed", "option-study-seed", "N");
    text("--times", "option-times", "WHAT=MINUTES,…");
  }
  if (command == "travel") {
    text("--axle", "option-axle", "front|rear");
    text("--rise", "option-rise", "LENGTHS");
    text("--rack", "option-rack", "LENGTHS");
    text("--roll", "option-roll", "ANGLES");
    text("--change", "option-change", "PART=LENGTH,…");
    text("--held", "option-held", "wheel|arm");
    flag("--stock", asked.stock, "option-stock");
    flag("--spread", asked.spread, "option-spread");
    flag("--each-change", asked.each_change, "option-each-change");
    text("--draw", "option-draw", "FILE.svg|FILE.pdf");
    text("--curve", "option-curve", "NAME");
    flag("--map", asked.map, "option-map");
    text("--language", "option-language", "en|de");
    flag("--letter", asked.letter, "option-letter");
  }
  rows.emplace_back("--help", say("option-help"));
  return rows;
}

std::string help_of(const CommandName& command, const HelpRows& rows) {
  const std::string name = command.name;
  std::string text = "trammel " + name + " " + command.argument + " [OPTIONS]\n" + say("help-" + name) + "\n\n" +
                     Terminal(false, 100).wrapped(flowed(help("help-" + name)), 0, 0) + "\n\n";
  std::size_t width = std::string(command.argument).size();
  for (const auto& [left, right] : rows) width = std::max(width, static_cast<std::size_t>(columns(left)));
  const auto row = [&](const std::string& left, const std::string& right) {
    text += "  " + padded(left, static_cast<int>(width) + 2) + right + "\n";
  };
  row(command.argument, say("argument-" + name));
  for (const auto& [left, right] : rows) row(left, right);
  return text;
}

void one_of(const std::string& option, const std::string& value, const std::vector<std::string_view>& words) {
  for (const std::string_view w : words)
    if (w == value) return;
  std::string choices;
  for (const std::string_view w : words) choices += (choices.empty() ? "" : ", ") + std::string(w);
  throw CLI::ValidationError(option, say("word-unknown", {{"text", value}, {"choices", choices}}));
}

// A drawing has its own rises and shows the whole change: what asks for other poses does not go with it.
void check_drawing(const Asked& asked, const std::map<std::string, std::string>& texts) {
  if (!asked.draw.ends_with(".svg") && !asked.draw.ends_with(".pdf"))
    throw CLI::ValidationError("--draw", say("draw-unknown-kind", {{"text", asked.draw}}));
  for (const char* name : {"--rise", "--rack", "--roll", "--change", "--held"})
    if (const auto found = texts.find(name); found != texts.end() && !found->second.empty())
      throw CLI::ValidationError("--draw", say("option-not-with", {{"option", std::string(name)}}));
  if (asked.map && !asked.curve.empty())
    throw CLI::ValidationError("--map", say("option-one-of", {{"option", std::string("--curve")}}));
  if (!asked.curve.empty()) {
    const std::vector<std::string> names = curve_names();
    one_of("--curve", asked.curve, {names.begin(), names.end()});
  }
  if (asked.each_change || asked.spread)
    throw CLI::ValidationError(
        "--draw", say("option-not-with", {{"option", std::string(asked.spread ? "--spread" : "--each-change")}}));
}

void read_texts(Asked& asked, const std::map<std::string, std::string>& texts) {
  const auto given = [&](const char* name) {
    const auto found = texts.find(name);
    return found != texts.end() && !found->second.empty() ? &found->second : nullptr;
  };
  if (const auto* t = given("--units")) {
    one_of("--units", *t, {"both", "metric", "inch"});
    asked.systems = *t == "metric" ? Systems::metric : *t == "inch" ? Systems::inch : Systems::both;
  }
  for (const char* name : {"--count", "--carts"})
    if (const auto* t = given(name)) {
      const auto [end, fault] = std::from_chars(t->data(), t->data() + t->size(), asked.count);
      if (fault != std::errc() || end != t->data() + t->size() || asked.count < 1 || asked.count > 100000)
        throw CLI::ValidationError(name, say("count-unreadable", {{"text", *t}}));
    }
  for (const auto& [name, into] : {std::pair{"--spoil", &asked.spoil}, std::pair{"--seed", &asked.seed}})
    if (const auto* t = given(name)) {
      const auto [end, fault] = std::from_chars(t->data(), t->data() + t->size(), *into);
      if (fault != std::errc() || end != t->data() + t->size() || *into < 0 || *into > 100000)
        throw CLI::ValidationError(name, say("count-unreadable", {{"text", *t}}));
    }
  if (const auto* t = given("--floor")) {
    one_of("--floor", *t, {"bare", "plates"});
    asked.floor = *t;
  }
  if (const auto* t = given("--fleet")) {
    one_of("--fleet", *t, {"nominal", "surveyed", "none", "beam", "coarse"});
    asked.fleet = *t;
  }
  if (const auto* t = given("--times")) asked.times = shop_times(*t);
  if (const auto* t = given("--people")) {
    one_of("--people", *t, {"1", "2"});
    asked.people = *t == "2" ? 2 : 1;
  }
  const std::pair<const char*, std::string*> plain[] = {{"--who", &asked.who},
                                                        {"--when", &asked.when},
                                                        {"--why", &asked.why},
                                                        {"--evidence", &asked.evidence},
                                                        {"--wrench", &asked.wrench},
                                                        {"--second", &asked.second},
                                                        {"--turned", &asked.turned},
                                                        {"--by", &asked.by},
                                                        {"--instead", &asked.instead},
                                                        {"--torque", &asked.torque},
                                                        {"--answers", &asked.answers},
                                                        {"--done-by", &asked.done_by},
                                                        {"--done-when", &asked.done_when}};
  for (const auto& [name, to] : plain)
    if (const auto* t = given(name)) *to = *t;
  if (const auto* t = given("--side")) {
    one_of("--side", *t, {"left", "right"});
    asked.side = *t;
  }
  if (const auto* t = given("--into")) asked.folder = *t;
  if (const auto* t = given("--only")) asked.only = *t;

  if (const auto* t = given("--for")) asked.for_job = *t;
  if (const auto* t = given("--name")) asked.name = *t;
  if (const auto* t = given("--axle")) {
    one_of("--axle", *t, {"front", "rear"});
    asked.axle = *t;
  }
  if (const auto* t = given("--rise")) asked.rises = list<Length>(*t, Kind::length, "--rise");
  if (const auto* t = given("--rack")) asked.racks = list<Length>(*t, Kind::length, "--rack"), asked.racks_given = true;
  if (const auto* t = given("--roll")) asked.rolls = list<Angle>(*t, Kind::angle, "--roll"), asked.rolls_given = true;
  if (const auto* t = given("--change")) asked.changes = changes(*t);
  if (const auto* t = given("--held")) {
    one_of("--held", *t, {"wheel", "arm"});
    asked.held = *t == "arm" ? suspension::Held::arm : suspension::Held::wheel;
  }
  if (const auto* t = given("--language")) {
    one_of("--language", *t, {"en", "de"});
    asked.language = *t;
  }
  if (const auto* t = given("--curve")) asked.curve = *t;
  if (const auto* t = given("--draw")) {
    asked.draw = *t;
    check_drawing(asked, texts);
  } else if (!asked.curve.empty() || asked.map) {
    throw CLI::ValidationError(asked.map ? "--map" : "--curve",
                               say("option-needs", {{"option", std::string("--draw")}}));
  }
}

Arguments told(std::string out, std::string err, int status) {
  return {std::nullopt, {std::move(out), std::move(err), status}};
}

}  // namespace

bool adds_an_entry(const std::string& command) {
  for (const char* c : {"sign", "torque", "found", "decide", "measure", "turned", "add", "undo"})
    if (command == c) return true;
  return false;
}

Arguments read_arguments(int argc, char** argv) {
  if (argc < 2) return told("", overview(), 2);
  const std::string first = argv[1];
  if (first == "--help" || first == "-h" || first == "help") return told(overview(), "", 0);
  if (first == "--version") return told("trammel " TRAMMEL_VERSION "\n", "", 0);

  // A mistyped command is answered with the nearest one.
  const CommandName* command = nullptr;
  std::vector<std::string_view> names;
  for (const CommandName& c : commands) {
    names.emplace_back(c.name);
    if (first == c.name) command = &c;
  }
  if (!command) {
    const std::string near(nearest(first, names));
    return told("", say(near.empty() ? "command-unknown" : "command-near", {{"text", first}, {"nearest", near}}) + "\n",
                2);
  }

  Asked asked;
  asked.command = first;
  std::map<std::string, std::string> texts;
  CLI::App app;
  std::vector<std::string> words;
  app.add_option(command->argument, words);
  const HelpRows rows = add_options(app, asked, first, texts);
  try {
    app.parse(argc - 1, argv + 1);
    read_texts(asked, texts);
  } catch (const CLI::CallForHelp&) { return told(help_of(*command, rows), "", 0); } catch (const CLI::ExtrasError&) {
    // An option that is not known is answered with the nearest one.
    std::string wrong;
    for (const std::string& left : app.remaining()) wrong = wrong.empty() ? left : wrong;
    std::vector<std::string> known;
    for (const CLI::Option* o : app.get_options())
      for (const std::string& l : o->get_lnames()) known.push_back("--" + l);
    const std::vector<std::string_view> views(known.begin(), known.end());
    const std::string near(nearest(wrong.substr(0, wrong.find('=')), views));
    return told(
        "",
        say(near.empty() ? "option-unknown" : "option-near", {{"text", wrong}, {"nearest", near}, {"command", first}}) +
            "\n",
        2);
  } catch (const CLI::ParseError& e) { return told("", std::string("trammel ") + first + ": " + e.what() + "\n", 2); }
  const bool pairs = first == "measure" || first == "turned";
  const std::size_t wanted = first == "torque" || first == "found" || first == "decide" ? 3
                             : pairs ? std::max<std::size_t>(words.size(), 2)
                             : first == "sign" || first == "undo" || first == "add" ? 2
                                                                                    : 1;
  if (wanted > 1 && words.size() >= wanted) {
    asked.more.assign(words.begin() + 1, words.begin() + static_cast<std::ptrdiff_t>(wanted));
    words.erase(words.begin() + 1, words.begin() + static_cast<std::ptrdiff_t>(wanted));
  } else if (wanted > 1) {
    words.clear();
  }
  for (const std::string& w : words) asked.path += (asked.path.empty() ? "" : " ") + w;
  if (asked.path.empty() && first != "explain")
    return told("", say("argument-missing", {{"command", first}, {"argument", std::string(command->argument)}}) + "\n",
                2);
  if (first == "new") {
    if (words[0] != "kit")
      return told("", say("word-unknown", {{"text", words[0]}, {"choices", std::string("kit")}}) + "\n", 2);
    if (words.size() < 2)
      return told("", say("argument-missing", {{"command", first}, {"argument", std::string("FOLDER")}}) + "\n", 2);
    asked.folder = words[1];
    words.erase(words.begin());
  }
  if (words.size() > 1 && first != "fastener")
    return told("", say("argument-too-many", {{"command", first}, {"text", words[1]}}) + "\n", 2);
  return {std::move(asked), {}};
}

}  // namespace trammel::cli
