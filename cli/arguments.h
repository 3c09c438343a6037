// What was asked for on the command line.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "measure/text.h"
#include "setup/next_step.h"
#include "suspension/geometry/axle.h"

namespace trammel::cli {

// sign, torque, found, decide, measure, turned, add, undo.
bool adds_an_entry(const std::string& command);

struct Asked {
  std::string command;
  std::string path;  // a job, a cart, a code or a fastener's text
  bool json = false, brief = false, all = false, letter = false, booklet = false, stock = false, pictures = false;
  bool as_cart = false;     // survey
  std::string for_job;      // survey: a job whose decisions say when it is enough
  int count = 300;          // study: surveys or carts of each fleet
  int spoil = 0, seed = 1;  // rehearse: mistakes to try; also study alignment: where they are drawn from
  std::string floor;        // study alignment: bare, plates, or both where empty
  std::string fleet;        // study alignment: one kind of carts, or all where empty
  setup::ShopTimes times;
  bool resume = false;            // plan
  int people = 0;                 // plan: 1 or 2; 0: as the job's shop says
  std::vector<std::string> more;  // what follows the job, where an entry is added
  std::string who, when, why, side, evidence, wrench, second, turned, by;
  std::string instead, torque, answers, done_by, done_when;
  bool fresh = false;  // torque: with a new nut or bolt
  std::vector<std::string> exceptions;
  Systems systems = Systems::both;
  std::string folder;  // where sheets go, or the new kit
  std::string only;    // sheet: one sheet's name, all where empty
  std::string name;    // new
  // travel
  std::string axle = "front";
  std::vector<Length> rises{Length{}}, racks{Length{}};
  std::vector<Angle> rolls{Angle{}};
  suspension::AxleChanges changes;
  suspension::Held held = suspension::Held::wheel;
  bool each_change = false, spread = false;
  std::string draw;      // a file to draw into, .svg or .pdf
  std::string curve;     // draw: this one alone
  bool map = false;      // draw: the clearance map alone
  std::string language;  // sheet and drawing: "en", "de"; English where empty
  bool racks_given = false, rolls_given = false;
};

// What to do instead where nothing is to be run: a text and the exit status that goes with it.
struct Answered {
  std::string out, err;
  int status = 0;
};

struct Arguments {
  std::optional<Asked> asked;
  Answered answered;
};

Arguments read_arguments(int argc, char** argv);

}  // namespace trammel::cli
