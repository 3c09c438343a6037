#include "jobfile/load.h"

#include "job/survey_shape.h"
#include "jobfile/learned.h"
#include "jobfile/open.h"
#include "jobfile/reader.h"
#include "jobfile/rules.h"

namespace trammel {

namespace {

using Includes = Opener::Includes;

template <class T>
Loaded<T> finished(std::optional<T> value, Report& report) {
  Loaded<T> out{std::move(value), report.take()};
  if (!out.diagnostics.empty()) out.value.reset();
  return out;
}

// Of every value of a cart's or a job's file that does not say its own.
Basis file_basis(const Node& root) {
  const Node* basis = root.find("basis");
  for (std::size_t i = 0; basis && i < words::bases.size(); ++i)
    if (basis->text == words::bases[i]) return static_cast<Basis>(i);
  return Basis::assumed;
}

Cart read_cart(const Node& root, Report& report) {
  ReadContext context{report, file_basis(root), {}};
  Cart cart;
  read_table(root, "", context, cart);
  check_format(root, "trammel cart 1", context);
  check_cart(root, cart, context);
  return cart;
}

// The kit; `cart` is what its changes are laid over and is changed along.
Kit read_kit(const Node& root, Cart& cart, ListNames names, Report& report) {
  ReadContext context{report, Basis::kit, {}};
  Kit kit;
  read_table(root, "", context, kit, {"change"});
  check_format(root, "trammel kit 1", context);
  kit.change = read_changes(root, cart, names, context);
  if (!kit.change.empty() && names == ListNames::of_the_cart) check_changed_cart(cart, kit.change.back(), context);
  check_kit(root, kit, context);
  return kit;
}

// `kits = ["a.toml", { file = "b.toml" }]`.
std::vector<const Node*> kit_files(const Node& root, ReadContext& context) {
  std::vector<const Node*> out;
  const Node* kits = root.find("kits");
  if (!kits) return out;
  if (kits->kind != Node::Kind::list) {
    context.report.at(
        *kits, "wrong-shape",
        {{"key", "kits"}, {"wanted", "a list, as [\"kit.toml\"]"}, {"found", std::string(kind_name(*kits))}});
    return out;
  }
  for (const Node& item : kits->items) {
    const Node* file = item.kind == Node::Kind::table ? item.find("file") : &item;
    if (!file)
      context.report.at(item, "missing-key", {{"key", "file"}, {"table", "`kits`"}, {"what", "the kit's file"}});
    for (const Member& member : item.members)
      if (member.key != "file")
        context.report.at(member, "unknown-key", {{"key", member.key}, {"table", "`kits`"}}).choices = {"file"};
    bool twice = false;
    for (const Node* earlier : out)
      if (file && earlier->text == file->text && file->kind == Node::Kind::text) {
        context.report.at(*file, "name-twice", {{"name", file->text}}).other = earlier->place;
        twice = true;
      }
    if (file && !twice) out.push_back(file);
  }
  return out;
}

struct JobText {
  Job job;
  Cart changed;       // with its kits on
  bool whole = true;  // every file that it names could be read
};

JobText read_job(const Node& root, Opener& opener, Report& report) {
  // The job's own file.
  ReadContext context{report, file_basis(root), {}};
  if (const Node* sign = root.find("decimal_sign"); sign && sign->text == ",") context.rules.decimal_sign = ',';
  JobText text;
  Job& job = text.job;
  read_table(root, "", context, job,
             {"cart", "kits", "learned_from", "reading", "adjustment", "rear_reading", "rear_adjustment", "signed",
              "torque", "decision", "found", "undo", "addition"});
  check_format(root, "trammel job 1", context);
  ReadContext measured{report, Basis::measured, context.rules};
  job.events = read_events(root, measured);

  // The cart, then each kit on what the kits before it leave.
  const std::size_t before = report.size();
  if (const Node* named = root.find("cart")) {
    const auto cart = opener.open_named(*named);
    if (cart) job.cart = read_cart(*cart, report);
    text.whole = cart.has_value();
  } else {
    report.at(root, "missing-key",
              {{"key", "cart"}, {"table", "this file"}, {"what", "the cart's file, as \"cart.toml\""}});
    text.whole = false;
  }
  // On a cart with faults of its own, changes are checked for their paths alone.
  const ListNames names = report.size() == before ? ListNames::of_the_cart : ListNames::any;
  text.changed = job.cart;
  for (const Node* named : kit_files(root, context)) {
    const auto kit = opener.open_named(*named);
    text.whole = text.whole && kit;
    if (kit) job.kits.push_back({{named->text, named->place}, read_kit(*kit, text.changed, names, report)});
  }

  // What stands in one file and names something in another can be judged only where all were read.
  if (text.whole) check_job(root, job, context);
  return text;
}

// Finished jobs on the same cart and kits. What those learned from in their turn is not followed.
void read_learned(const Node& root, JobText& text, Opener& opener, Report& report) {
  const Node* list = root.find("learned_from");
  if (!list) return;
  if (list->kind != Node::Kind::list) {
    report.at(
        *list, "wrong-shape",
        {{"key", "learned_from"}, {"wanted", "a list, as [\"job-3.toml\"]"}, {"found", std::string(kind_name(*list))}});
    return;
  }
  for (const Node& named : list->items) {
    const auto opened = opener.open_named(named);
    if (!opened) continue;
    if (opened->place.file == root.place.file) {
      report.at(named, "learned-itself", {{"file", named.text}});
      continue;
    }
    JobText learned = read_job(*opened, opener, report);
    if (!learned.whole) continue;
    if (const auto other = first_difference(text.job, text.changed, learned.job, learned.changed)) {
      report.at(named, "learned-other-cart", {{"file", named.text}, {"what", *other}});
      continue;
    }
    text.job.learned_from.push_back({{named.text, named.place}, std::make_shared<const Job>(std::move(learned.job))});
  }
}

}  // namespace

Loaded<Cart> load_cart(Files& files, const std::string& path) {
  Report report;
  const auto root = Opener(files, report).open_first(path, "cart.toml", Includes::followed);
  std::optional<Cart> cart;
  if (root) cart = read_cart(*root, report);
  return finished(std::move(cart), report);
}

Loaded<Kit> load_kit(Files& files, const std::string& path) {
  Report report;
  const auto root = Opener(files, report).open_first(path, "kit.toml", Includes::followed);
  std::optional<Kit> kit;
  Cart any;
  if (root) kit = read_kit(*root, any, ListNames::any, report);
  return finished(std::move(kit), report);
}

Loaded<Job> load_job(Files& files, const std::string& path) {
  Report report;
  Opener opener(files, report);
  const auto root = opener.open_first(path, "job.toml", Includes::not_followed);
  if (!root) return finished<Job>(std::nullopt, report);
  JobText text = read_job(*root, opener, report);
  if (text.whole) read_learned(*root, text, opener, report);
  return finished<Job>(std::move(text.job), report);
}

Loaded<SurveyFile> load_survey(Files& files, const std::string& path) {
  Report report;
  const auto root = Opener(files, report).open_first(path, "survey.toml", Includes::not_followed);
  if (!root) return finished<SurveyFile>(std::nullopt, report);
  ReadContext context{report, Basis::measured, {}};
  if (const Node* sign = root->find("decimal_sign"); sign && sign->text == ",") context.rules.decimal_sign = ',';
  SurveyFile survey;
  read_table(*root, "", context, survey);
  check_format(*root, "trammel survey 1", context);
  check_survey(survey, context);
  return finished<SurveyFile>(std::move(survey), report);
}

std::string file_kind(Files& files, const std::string& path) {
  const auto bytes = files.read(path, {});
  if (const auto* fault = std::get_if<FileFault>(&bytes)) return *fault == FileFault::folder ? "job" : "";
  Report report;
  const auto root = Opener(files, report).open_first(path, "job.toml", Includes::not_followed);
  const Node* format = root ? root->find("format") : nullptr;
  for (const char* kind : {"cart", "kit", "job", "survey"})
    if (format && format->text.starts_with(std::string("trammel ") + kind)) return kind;
  return "";
}

}  // namespace trammel
