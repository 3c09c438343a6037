// The reader of a job's record: entry by entry into the ledger, with what is odd about each. Private to assess; what it
// holds against the entries stands in record.h.
#pragma once

#include <algorithm>

#include "assess/additions.h"
#include "assess/entry_terms.h"
#include "assess/joint_asked.h"
#include "assess/record.h"
#include "work/asked.h"

namespace trammel {

class RecordReader {
 public:
  RecordReader(const Job& job, const work::Roster& roster, const std::set<std::string>& disputed);
  Record read();

 private:
  using Instances = std::vector<std::size_t>;  // places in Roster::fasteners

  // What is known of one instance as the entries are read.
  struct Booked {
    TorqueReached* shown = nullptr;
    bool entered = false;  // what was reached, since it was last loosened
    bool used = false;     // by a signature that made it final
    bool owed = false;     // made final by a signature that still wants it
    int counted = 0;       // the last entry of it that counts
    int made = 0;          // the last of them that is no check of an earlier one
    int decided = 0;       // the last decision about it
    bool over = false;     // too tight, or tightened while it was in dispute
    std::string by;        // the stack of what stands in; empty: the kit's own
    int final_at = 0;      // the last signature that made it final, of this step
    std::string final_by;
    int checked = 0;  // its last torque that says how far it moved
  };
  // What is said of one entry of a torque, and of which instances.
  enum class Verdict {
    counts,
    pass,
    below,
    above,
    in_dispute,
    stands_wrong,
    wants_new,
    wants_measure,
    wants_torque,
    set_unread,
    set_outside
  };
  // A finding about fasteners that a later entry may put right.
  struct Mended {
    std::size_t finding = 0;
    int entry = 0;
    Instances instances;
    bool check = false;  // of a torque that was made earlier
  };

  // The page of the record, the ledger and the findings.
  void tell(const Event& event, bool struck);
  template <class E>
  void add(E what, const std::string& who, const std::optional<Text>& when) {
    const work::Event event{out_.events.size() + 1, who, when ? when->value : "", std::move(what)};
    out_.ledger = work::apply(roster_, std::move(out_.ledger), event);
    out_.events.push_back(event);
    out_.entry_of.push_back(number_);
  }
  const work::State& now() const { return out_.ledger.state; }
  Finding& find(Outcome outcome, const std::string& subject, Message message, const Place& place, std::string source);
  void unknown(const Text& text);
  // What an entry lacks or says wrongly of itself; `called` names it where that is not the finding's subject.
  void tell_faults(std::vector<EntryFault> faults, const std::string& subject, const Place& entry,
                   const char* called = nullptr);

  Instances named(const Text& text) const;
  std::vector<std::string> names(const Instances& instances) const;
  std::string told(const Instances& instances) const;  // "F3" for the whole group, else its places
  const KitFastener* kit_of(std::size_t i) const;

  // Signed steps.
  void take(const Signed& s);
  void terms_of(const Signed& s, const work::Step& step, const std::vector<work::Side>& sides);
  bool may_be_alone(const Signed& s) const;
  void alone(const Signed& s, const std::string& subject);
  void made_final(const work::Step& step, work::Side side, const work::State& before);
  void loosened(const work::State& before);
  void forget(std::size_t i) { booked_[i].entered = booked_[i].used = false; }
  void torqued_again(const Signed& s, const work::Step& step, const std::vector<work::Side>& sides);
  void second_look(const Signed& s, std::size_t i);

  // Torques and measures (record_torque.cpp).
  void take(const TorqueEntry& t);
  Verdict verdict_of(const TorqueEntry& t, std::size_t i) const;
  Verdict enter(const TorqueEntry& t, std::size_t i);
  void tell_verdict(const TorqueEntry& t, Verdict verdict, const Instances& of);
  void moved_again(const TorqueEntry& t);

  // Found and decided (record_found.cpp).
  void take(const FoundSo& f);
  void stand_in(const FoundSo& f, const Instances& instances);
  void judge_strain(const Strain& s, Torque torque, const std::string& id, const std::string& what, const Place& place);
  void take(const Decision& d);

  void take(const Undo& u);
  void take(const Addition& a);
  // Readings and turns: of a record only where work is signed in it.
  template <class Measured>
  void take(const Measured& m) {
    const bool worked = std::any_of(job_.events.begin(), job_.events.end(),
                                    [](const Event& e) { return std::holds_alternative<Signed>(e); });
    constexpr bool turned = std::is_same_v<Measured, Adjustment> || std::is_same_v<Measured, RearAdjustment>;
    if (worked)
      tell_faults(terms_.who_and_when(number_, m.who, m.when, {"@wheels"}), "entry " + std::to_string(number_), m.place,
                  turned ? "@a-turn" : "@a-reading");
  }
  void owed();
  void put_right();

  const Job& job_;
  const work::Roster& roster_;
  const CompletedEvents completed_;
  EntryTerms terms_;
  char decimal_ = '.';
  std::map<std::string, const KitFastener*> fasteners_;
  std::map<std::string, const KitStep*> steps_;
  std::vector<Booked> booked_;  // by roster entry
  std::set<std::string> same_person_;
  std::map<std::string, int> moved_;  // torqued again, and how often it moved
  std::vector<Mended> may_be_mended_;
  Instances about_;  // what the entry that is being read names
  int number_ = 0;
  bool checking_ = false;  // the entry is a check of an earlier torque
  Record out_;
};

inline constexpr const char* own_words = "the job's own words";

}  // namespace trammel
