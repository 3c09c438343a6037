#include "assess/entry_terms.h"

#include <algorithm>

namespace trammel {
namespace {

std::string folded(const std::string& name) {
  std::string out;
  for (const char c : name) {
    if (c == ' ' || c == '.' || c == '-') continue;
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

}  // namespace

bool says(const std::optional<Text>& text) { return text && text->value.find_first_not_of(" \t") != std::string::npos; }

bool same_person(const std::string& a, const std::string& b) { return folded(a) == folded(b); }

EntryFault lacking(const char* what, const char* option) {
  return {"record-lacks", {{"what", std::string(what)}, {"option", std::string(option)}}, std::nullopt};
}

EntryTerms::EntryTerms(const Job& job) : job_(job) {
  if (job.date) begun_ = read_when(job.date->value);
}

std::vector<EntryFault> EntryTerms::who_and_when(int number, const std::optional<Text>& who,
                                                 const std::optional<Text>& when,
                                                 const std::vector<std::string>& things) {
  std::vector<EntryFault> out;
  if (!says(who)) out.push_back(lacking("@lacks-who", "--done-by NAME"));
  if (!says(when)) {
    out.push_back(lacking("@lacks-when", "--done-when DATE"));
    return out;
  }
  const auto read = read_when(when->value);
  if (!read) {
    out.push_back({"record-when-unread", {{"when", when->value}}, when->place});
    return out;
  }
  if (begun_ && before(*read, *begun_)) {
    out.push_back({"record-when-early", {{"when", when->value}, {"date", job_.date->value}}, when->place});
    return out;
  }
  // Of the same thing, an entry that stands earlier was made earlier.
  const Told* later = nullptr;
  for (const std::string& thing : things)
    if (const auto found = latest_.find(thing); found != latest_.end() && before(*read, found->second.when))
      if (!later || before(later->when, found->second.when)) later = &found->second;
  if (later)
    out.push_back({"record-when-backward",
                   {{"when", when->value}, {"other", std::to_string(later->number)}, {"then", later->text}},
                   when->place});
  else
    for (const std::string& thing : things) latest_[thing] = {number, *read, when->value};
  return out;
}

std::vector<EntryFault> EntryTerms::wrench(const TorqueEntry& t) const {
  std::vector<EntryFault> out;
  if (!t.torque) return out;
  if (!says(t.wrench)) {
    out.push_back(lacking("@lacks-wrench", "--wrench ID"));
    return out;
  }
  if (!job_.shop || job_.shop->wrench.empty()) return out;
  const auto& all = job_.shop->wrench;
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Wrench& w) { return w.id.value == t.wrench->value; });
  const std::pair<std::string, Argument> id{"wrench", t.wrench->value};
  if (found == all.end()) {
    out.push_back({"record-wrench-unknown", {id}, t.wrench->place});
    return out;
  }
  const Torque torque = t.torque->value;
  if ((found->least && torque < found->least->value) || (found->most && torque > found->most->value))
    out.push_back({"record-wrench-range", {id, {"torque", number(torque)}}, t.wrench->place});
  if (!found->calibration_due) return out;
  const auto due = read_when(found->calibration_due->value);
  if (!due) {
    out.push_back({"record-wrench-due-unread", {id, {"due", found->calibration_due->value}}, t.wrench->place});
    return out;
  }
  // On the day of the entry; without one, on the day of the job.
  const auto day = says(t.when) ? read_when(t.when->value) : begun_;
  if (day && due->day < day->day)
    out.push_back({"record-wrench-overdue", {id, {"due", found->calibration_due->value}}, t.wrench->place});
  return out;
}

}  // namespace trammel
