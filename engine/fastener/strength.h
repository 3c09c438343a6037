// How strong a bolt or nut is: property classes, grades, and the loads they must bear.
//
// Proof load Fp = As Sp; least breaking load Fm = As Rm. Where the standard's own table prints the load
// (ISO 898-1:2013 Tables 4 to 7, coarse) that number is used; else the product is computed and says so.
// Class 8.8 is two materials: up to M16 Sp = 580 MPa, above 600 MPa.
//
// Range: ISO 898-1 classes 4.6 to 12.9; SAE J429 grades 1 to 8.2 (1/4 to 3/4 in); ISO 898-2 nuts 8, 10, 12
// and their hot-dip galvanized kinds. Ignores: temperature, fatigue, decarburised or counterfeit parts.
// Error: computed loads lie within the print's rounding (three figures) of the tables.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "fastener/thread.h"
#include "reference/basis.h"

namespace trammel::fastener {

using reference::Basis;

struct Strength {
  Pressure proof, yield, tensile;  // Sp; ReL or Rp0.2; Rm, each the least the standard allows
  std::string_view source;         // lives as long as the program
  Basis basis{};
  bool single_source = false;  // only one publication of it has been read
};

struct Load {
  Force value;
  std::string_view source;
  Basis basis{};
  bool single_source = false;
};

// "8.8", "class 8.8", "grade 5", "gr 5", "SAE 5" to "8.8" or "grade 5"; nothing where it is no class.
std::optional<std::string> read_bolt_class(std::string_view text);
// The class or grade that exists and is nearest by its number to one that does not: "8.9" to "8.8".
std::string nearest_bolt_class(std::string_view text);
// "8", "10", "class 8" to "8"; nothing where it is no nut class.
std::optional<std::string> read_nut_class(std::string_view text);
// Grade of an inch nut, SAE J995 (from memory): "5" to "grade 5"; nothing where there is no such grade.
std::optional<std::string> read_nut_grade(std::string_view number);

// Nothing where the class does not exist for this thread (a grade on a metric thread, 9.8 above M16).
std::optional<Strength> strength(std::string_view bolt_class, const Thread& thread);
std::optional<Load> proof_load(std::string_view bolt_class, const Thread& thread);
std::optional<Load> breaking_load(std::string_view bolt_class, const Thread& thread);
std::optional<Load> nut_proof_load(std::string_view nut_class, const Thread& thread);

}  // namespace trammel::fastener
