#!/usr/bin/env python3
"""Turns the published rows of reference/*.csv into constexpr C++ headers, one a table.

usage: make_tables.py CSV_FOLDER OUT_FOLDER
Fails on a missing or unknown column, a malformed number, an unknown basis, an empty source or a duplicate row.
"""
import csv
import re
import sys
from fractions import Fraction
from pathlib import Path

BASIS = {
    "as_published": "as_published",
    "as_published (secondary)": "as_published_secondary",
    "derived": "derived",
    "from_memory": "from_memory",
    "computed": "computed",
}


class Malformed(Exception):
    pass


def text(cell):
    escaped = cell.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def number(cell):
    if not re.fullmatch(r"-?\d+(\.\d+)?", cell):
        raise Malformed(f"not a number: '{cell}'")
    return cell


def optional(cell):
    return number(cell) if cell else "std::nullopt"


def length_mm(cell):
    """A millimetre number, or an inch fraction with its rounded millimetres: '7/16 in (11.11)'."""
    inch = re.fullmatch(r"(?:(\d+)-)?(\d+/\d+) in \((\d+\.\d+)\)", cell)
    if not inch:
        return number(cell)
    exact = (int(inch[1] or 0) + Fraction(inch[2])) * Fraction("25.4")
    if abs(float(exact) - float(inch[3])) > 0.00501:
        raise Malformed(f"inch and millimetre values differ: '{cell}'")
    return repr(float(exact))


def basis(cell):
    if cell not in BASIS:
        raise Malformed(f"unknown basis: '{cell}'")
    return f"Basis::{BASIS[cell]}"


def source(cell):
    if not cell:
        raise Malformed("a row without a source")
    return text(cell)


TYPES = {text: "std::string_view", number: "double", optional: "std::optional<double>", length_mm: "double",
         basis: "Basis", source: "std::string_view"}
SOURCE = [("source", "source", source), ("basis_of_value", "basis", basis)]
NOTE = [("note", "note", text)]


def same(names, kind):
    return [(name, name.lower(), kind) for name in names.split()]


# file -> row type, array, what it is, columns (CSV name, field, reader), columns that make a row unique
TABLES = {
    "across_flats": ("AcrossFlatsRow", "across_flats", "Width across flats of heads and nuts, mm",
        same("standard kind thread", text) + [("s_mm", "s_mm", length_mm)] + SOURCE + NOTE,
        "standard kind thread s_mm"),
    "alphaA": ("AlphaARow", "alpha_a", "Tightening factor alphaA = greatest / least preload, by method",
        [("method", "method", text), ("scatter_stated", "scatter", text), ("alphaA_low", "low", number),
         ("alphaA_high", "high", number)] + SOURCE + NOTE, "method source"),
    "assembly_torque": ("AssemblyTorqueRow", "assembly_torque",
        "Assembly preload and torque as published; the families named in `family` must not be mixed",
        [("thread", "thread", text), ("property_class", "property_class", text), ("mu_total", "mu", optional),
         ("FM_max_kN", "preload_kn", optional), ("MA_Nm", "torque_nm", optional), ("basis", "family", text)]
        + SOURCE + NOTE, "thread property_class mu_total basis source"),
    "iso898_1_classes": ("PropertyClassRow", "iso898_1_classes", "ISO 898-1 property classes, stresses in MPa",
        [("property_class", "property_class", text), ("Rm_nom_MPa", "rm_nominal_mpa", number),
         ("Rm_min_MPa", "rm_min_mpa", number), ("ReL_or_Rp02_min_MPa", "yield_min_mpa", number),
         ("Sp_MPa", "proof_mpa", number)] + SOURCE + NOTE, "property_class"),
    "iso898_1_proof_loads": ("ProofLoadRow", "iso898_1_proof_loads",
        "ISO 898-1 stress areas, proof and least ultimate loads",
        [("thread", "thread", text), ("pitch_mm", "pitch_mm", number), ("series", "series", text),
         ("As_mm2", "stress_area_mm2", number), ("property_class", "property_class", text),
         ("Sp_nom_MPa", "proof_mpa", number), ("proof_load_N", "proof_load_n", number),
         ("Rm_min_MPa", "rm_min_mpa", number), ("min_ult_tensile_N", "ultimate_n", number)] + SOURCE + NOTE,
        "thread property_class"),
    "iso898_2_nut_proof_loads": ("NutProofRow", "iso898_2_nut_proof_loads", "ISO 898-2 nut proof loads",
        [("thread", "thread", text), ("pitch_mm", "pitch_mm", number), ("nut_class", "nut_class", text),
         ("proof_load_N", "proof_load_n", number)] + SOURCE + NOTE, "thread pitch_mm nut_class"),
    "prevailing_torque": ("PrevailingTorqueRow", "prevailing_torque", "Running torque of prevailing-torque nuts, N.m",
        [("standard", "standard", text), ("thread", "thread", text), ("class_or_state", "class_or_state", text),
         ("first_assembly_max_Nm", "first_on_max_nm", optional),
         ("first_removal_min_Nm", "first_off_min_nm", optional),
         ("fifth_removal_or_reuse_min_Nm", "reused_min_nm", optional)] + SOURCE + NOTE,
        "standard thread class_or_state"),
    "sae_j429_grades": ("GradeRow", "sae_j429_grades", "SAE J429 grades, stresses in ksi",
        [("grade", "grade", text), ("size_range_in", "size_range_in", text), ("proof_ksi", "proof_ksi", number),
         ("tensile_min_ksi", "tensile_min_ksi", number), ("yield_min_ksi", "yield_min_ksi", number),
         ("proof_MPa", "proof_mpa", number)] + SOURCE, "grade size_range_in"),
    "thread_strip_areas": ("StripAreaRow", "thread_strip_areas", "Thread strip areas at an engagement of one diameter",
        [("thread", "thread", text), ("At_mm2", "stress_area_mm2", number),
         ("ext_strip_6H6g_mm2", "external_6h6g_mm2", number), ("ext_strip_6H4g6g_mm2", "external_6h4g6g_mm2", number),
         ("int_strip_mm2", "internal_mm2", number)] + SOURCE + NOTE, "thread"),
    "torque_factor_K": ("NutFactorRow", "torque_factor_k", "Nut factor K in T = K d F, as published",
        [("condition", "condition", text), ("K", "k", optional), ("K_min", "low", optional),
         ("K_max", "high", optional)] + SOURCE + NOTE, "condition source"),
    "tyre_load_index": ("LoadIndexRow", "tyre_load_index", "Load a tyre may carry by its load index",
        [("load_index", "load_index", number), ("max_load_kg_per_tyre", "load_kg", number)] + SOURCE, "load_index"),
    "tyre_speed_symbol": ("SpeedSymbolRow", "tyre_speed_symbol", "Greatest speed of a tyre by its speed symbol",
        [("speed_symbol", "symbol", text), ("max_speed_kmh", "speed_kmh", number)] + SOURCE, "speed_symbol"),
    "ubolt_torque": ("UBoltTorqueRow", "ubolt_torque", "Greatest torque on cold-formed U-bolts, two suppliers' charts",
        [("thread", "thread", text), ("sae_grade", "grade", text), ("max_lbfft_plated", "plated_lbfft", number),
         ("max_lbfft_unplated", "unplated_lbfft", number), ("max_Nm_plated", "plated_nm", number),
         ("max_Nm_unplated", "unplated_nm", number), ("K_if_75pct_proof_plated", "k_plated", number),
         ("K_if_75pct_proof_unplated", "k_unplated", number)] + SOURCE + NOTE, "thread sae_grade"),
    "unified_stress_areas": ("UnifiedAreaRow", "unified_stress_areas", "Unified inch threads: tensile stress and minor areas",
        [("thread", "thread", text), ("d_in", "d_in", number), ("tpi", "tpi", number), ("At_in2", "stress_area_in2", number),
         ("Ar_minor_in2", "minor_area_in2", number)] + SOURCE, "thread"),
    "fastener_sources": ("SourceRow", "fastener_sources", "The sources named S01, S02 ... in the fastener tables",
        [("id", "id", text), ("description", "description", source), ("where", "where", text)], "id"),
    "metric_pitches": ("MetricPitchRow", "metric_pitches", "Metric threads in trade use, ISO 261 and ISO 262",
        [("d_mm", "d_mm", number), ("pitch_mm", "pitch_mm", number), ("series", "series", text)] + SOURCE + NOTE,
        "d_mm pitch_mm"),
    "iso965_pitch_tolerances": ("PitchToleranceRow", "iso965_pitch_tolerances",
        "ISO 965-1 tolerances that depend on pitch alone, micrometres",
        [("pitch_mm", "pitch_mm", number), ("es_g_um", "es_g_um", number), ("Td6_um", "td6_um", number),
         ("TD1_6_um", "minor_td6_um", number)] + SOURCE + NOTE, "pitch_mm"),
    "iso965_pitch_diameter_tolerances": ("PitchDiameterToleranceRow", "iso965_pitch_diameter_tolerances",
        "ISO 965-1 pitch-diameter tolerances by size range and pitch, micrometres",
        [("over_d_mm", "over_d_mm", number), ("to_d_mm", "to_d_mm", number), ("pitch_mm", "pitch_mm", number),
         ("Td2_6_um", "bolt_um", number), ("TD2_6_um", "nut_um", number)] + SOURCE + NOTE,
        "over_d_mm to_d_mm pitch_mm"),
    "nut_heights": ("NutHeightRow", "nut_heights", "Greatest height of a nut, mm",
        [("kind", "kind", text), ("thread", "thread", text), ("height_max_mm", "height_mm", number)] + SOURCE + NOTE,
        "kind thread"),
    "washer_thickness": ("WasherRow", "washer_thickness", "Plain washer thickness, mm",
        [("thread", "thread", text), ("thickness_mm", "thickness_mm", number)] + SOURCE + NOTE, "thread"),
    "surface_states": ("SurfaceRow", "surface_states", "Surface states and the spread of K their sources give",
        [("state", "state", text), ("K_low", "k_low", number), ("K_nominal", "k_nominal", number),
         ("K_high", "k_high", number)] + SOURCE + NOTE, "state"),
    "tightening_methods": ("MethodRow", "tightening_methods", "Tightening methods and their factor alphaA",
        [("method", "method", text), ("alphaA_low", "low", number), ("alphaA_used", "used", number),
         ("alphaA_high", "high", number)] + SOURCE + NOTE, "method"),
    "member_materials": ("MaterialRow", "member_materials", "Least tensile strength of a tapped material, MPa",
        [("material", "material", text), ("tensile_min_MPa", "tensile_min_mpa", number)] + SOURCE + NOTE, "material"),
    "clearance_holes": ("ClearanceHoleRow", "clearance_holes", "Clearance holes for bolts, three series, mm",
        [("thread", "thread", text), ("fine_mm", "fine_mm", number), ("medium_mm", "medium_mm", number),
         ("coarse_mm", "coarse_mm", number)] + SOURCE + NOTE, "thread"),
    "bearing_faces": ("BearingFaceRow", "bearing_faces", "Least washer face of a hexagon head; outside of a plain washer, mm",
        [("thread", "thread", text), ("head_face_mm", "head_mm", number), ("washer_outside_mm", "washer_mm", number)]
        + SOURCE + NOTE, "thread"),
    "member_faces": ("MemberFaceRow", "member_faces", "Least yield and the face pressure a clamped part bears, MPa",
        [("material", "material", text), ("yield_MPa", "yield_mpa", optional),
         ("face_pressure_MPa", "face_pressure_mpa", number)] + SOURCE + NOTE, "material"),
    "thin_nuts": ("ThinNutRow", "thin_nuts", "Proof stress of thin (jam) nuts, MPa",
        [("nut_class", "nut_class", text), ("proof_MPa", "proof_mpa", number)] + SOURCE + NOTE, "nut_class"),
    "surface_friction": ("FrictionRow", "surface_friction", "Friction coefficients of the surface states, thread and face alike",
        [("state", "state", text), ("mu_low", "mu_low", number), ("mu_nominal", "mu_nominal", number),
         ("mu_high", "mu_high", number)] + SOURCE + NOTE, "state"),
    "tool_words": ("ToolWordRow", "tool_words",
        "The words of a tool by language; one that begins with a hyphen ends a longer word",
        same("language word plural kind", text), "language word"),
    "tool_readings": ("ToolReadingRow", "tool_readings", "What a measuring tool reads; a length down to its step, mm",
        same("kind reads", text) + [("step_mm", "step_mm", optional)] + SOURCE, "kind reads"),
    "plain_words": ("PlainWordRow", "plain_words",
        "Small words that matter where tools and checks are read: counts, prepositions, negations; `itself` is no slip",
        same("language word means", text), "language word"),
    "quantity_words": ("QuantityWordRow", "quantity_words", "What is read, by the words for it in each language",
        same("language word quantity", text), "language word"),
    "pivot_load_cases": ("PivotCaseRow", "pivot_load_cases",
        "Load cases of pivot bolts in multiples of the wheel's static load; side: of axle load times stability factor",
        [("case", "name", text), ("vertical", "vertical", number), ("long", "along", number), ("side", "side", number)]
        + SOURCE + NOTE, "case"),
}


def read_rows(path, columns, keys):
    """The rows of one file as C++ initializers; raises Malformed with file and line."""
    with open(path, newline="", encoding="utf-8") as file:
        reader = csv.DictReader(file, strict=True, restkey="(too many cells)", restval=None)
        if sorted(reader.fieldnames or []) != sorted(name for name, _, _ in columns):
            raise Malformed(f"{path.name}:1: columns are {reader.fieldnames}")
        seen, rows = {}, []
        for row in reader:
            place = f"{path.name}:{reader.line_num}"
            if "(too many cells)" in row or None in row.values():
                raise Malformed(f"{place}: wrong number of cells")
            key = tuple(row[name] for name in keys.split())
            if key in seen:
                raise Malformed(f"{place}: same row as line {seen[key]}: {', '.join(key)}")
            seen[key] = reader.line_num
            try:
                rows.append("{" + ", ".join(kind(row[name]) for name, _, kind in columns) + "}")
            except Malformed as fault:
                raise Malformed(f"{place}: {fault}") from None
    if not rows:
        raise Malformed(f"{path.name}: no rows")
    return rows


def header(name, row_type, array, about, columns, rows):
    fields = "".join(f"  {TYPES[kind]} {field};\n" for _, field, kind in columns)
    body = "".join(f"    {row},\n" for row in rows)
    return (f"// {about}. Generated from reference/{name}.csv.\n#pragma once\n\n#include <array>\n#include <optional>\n"
            f"#include <string_view>\n\n#include \"reference/basis.h\"\n\nnamespace trammel::reference {{\n\n"
            f"struct {row_type} {{\n{fields}}};\n\ninline constexpr std::array<{row_type}, {len(rows)}> {array}{{{{\n"
            f"{body}}}}};\n\n}}  // namespace trammel::reference\n")


def main():
    source_folder, out_folder = Path(sys.argv[1]), Path(sys.argv[2])
    unknown = {path.stem for path in source_folder.glob("*.csv")} ^ set(TABLES)
    if unknown:
        raise Malformed(f"tables without a description, or descriptions without a table: {sorted(unknown)}")
    out_folder.mkdir(parents=True, exist_ok=True)
    for name, (row_type, array, about, columns, keys) in TABLES.items():
        rows = read_rows(source_folder / f"{name}.csv", columns, keys)
        (out_folder / f"{name}.h").write_text(header(name, row_type, array, about, columns, rows), encoding="utf-8")


if __name__ == "__main__":
    try:
        main()
    except Malformed as fault:
        sys.exit(f"make_tables: {fault}")
