// The words by which a shop writes surfaces, methods, materials and finishes. Private to the room.
#pragma once

#include <array>

#include "fastener/joint.h"
#include "fastener/preload.h"
#include "fastener/scanner.h"
#include "fastener/surface.h"

namespace trammel::fastener {

inline constexpr Spelling<Surface> surface_spellings[] = {
    {"dry steel", Surface::dry_steel},
    {"dry", Surface::dry_steel},
    {"dry clean", Surface::dry_steel},
    {"dry, clean", Surface::dry_steel},
    {"dry plain", Surface::dry_steel},
    {"plain dry", Surface::dry_steel},
    {"dry black", Surface::dry_black},
    {"black dry", Surface::dry_black},
    {"black", Surface::dry_black},
    {"dry zinc", Surface::dry_zinc},
    {"zinc dry", Surface::dry_zinc},
    {"dry, zinc", Surface::dry_zinc},
    {"zinc", Surface::dry_zinc},
    {"dry zinc plated", Surface::dry_zinc},
    {"dry cadmium", Surface::dry_cadmium},
    {"cadmium", Surface::dry_cadmium},
    {"light oil", Surface::light_oil},
    {"oil", Surface::light_oil},
    {"oiled", Surface::light_oil},
    {"lightly oiled", Surface::light_oil},
    {"greased", Surface::greased},
    {"grease", Surface::greased},
    {"waxed", Surface::waxed},
    {"wax", Surface::waxed},
    {"anti-seize", Surface::anti_seize},
    {"antiseize", Surface::anti_seize},
    {"anti seize", Surface::anti_seize},
    {"thread locker", Surface::thread_locker},
    {"thread-locker", Surface::thread_locker},
    {"threadlocker", Surface::thread_locker},
};

inline constexpr Spelling<Method> method_spellings[] = {
    {"torque wrench", Method::torque_wrench},
    {"torque wrench, tested joint", Method::torque_wrench_tested},
    {"torque wrench tested", Method::torque_wrench_tested},
    {"angle", Method::angle},
    {"torque and angle", Method::angle},
    {"impact driver, then torque wrench", Method::impact_then_wrench},
    {"impact then torque wrench", Method::impact_then_wrench},
    {"hand spanner", Method::hand_spanner},
    {"spanner", Method::hand_spanner},
    {"impact driver", Method::hand_spanner},
};

inline constexpr Spelling<Material> material_spellings[] = {
    {"steel", Material::steel},
    {"cast iron", Material::cast_iron},
    {"ductile iron", Material::ductile_iron},
    {"aluminium", Material::aluminium},
    {"aluminum", Material::aluminium},
    {"stainless", Material::stainless},
    {"stainless steel", Material::stainless},
    {"plastic", Material::plastic},
    {"rubber", Material::rubber},
};

inline constexpr Spelling<Finish> finish_spellings[] = {
    {"plain", Finish::plain},         {"black", Finish::black},      {"zinc", Finish::zinc},
    {"zinc plated", Finish::zinc},    {"zinc-plated", Finish::zinc}, {"cadmium", Finish::cadmium},
    {"stainless", Finish::stainless},
};

inline constexpr Spelling<BoltKind> bolt_spellings[] = {
    {"bolt", BoltKind::bolt},       {"hex bolt", BoltKind::bolt}, {"flange bolt", BoltKind::bolt},
    {"wheel bolt", BoltKind::bolt}, {"screw", BoltKind::screw},   {"cap screw", BoltKind::screw},
    {"set screw", BoltKind::screw}, {"stud", BoltKind::stud},     {"wheel stud", BoltKind::stud},
    {"u-bolt", BoltKind::u_bolt},   {"ubolt", BoltKind::u_bolt},  {"u bolt", BoltKind::u_bolt},
};

inline constexpr Spelling<NutKind> nut_spellings[] = {
    {"nut", NutKind::plain},
    {"hex nut", NutKind::plain},
    {"prevailing-torque nut", NutKind::prevailing},
    {"prevailing torque nut", NutKind::prevailing},
    {"prevailing nut", NutKind::prevailing},
    {"lock nut", NutKind::prevailing},
    {"locknut", NutKind::prevailing},
    {"nylon-insert nut", NutKind::prevailing},
    {"jam nut", NutKind::jam},
    {"castle nut", NutKind::castle},
    {"flange nut", NutKind::flange},
    {"wheel nut", NutKind::wheel},
};

}  // namespace trammel::fastener
