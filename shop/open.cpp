#include "shop/open.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "assess/accessories.h"
#include "assess/assess.h"
#include "assess/fitted_cart.h"
#include "shop/files.h"

namespace trammel {

namespace {

// A folder is a job where it holds one, else a kit.
bool names_a_kit(Files& disk, const std::string& path) {
  const std::filesystem::path folder(path);
  if (std::filesystem::exists(folder / "kit.toml") && !std::filesystem::exists(folder / "job.toml")) return true;
  return file_kind(disk, path) == "kit";
}

}  // namespace

OpenedJob open_and_assess(const std::string& path) {
  DiskFiles disk;
  OpenedJob opened;
  opened.file = load_job(disk, path);
  if (!opened.file.value) return opened;
  opened.assessment = std::make_unique<Assessment>(assess(*opened.file.value));
  opened.file.value = as_fitted(std::move(*opened.file.value));
  return opened;
}

Loaded<Job> read_kit_or_job(const std::string& path) {
  DiskFiles disk;
  if (!names_a_kit(disk, path)) return load_job(disk, path);
  Loaded<Kit> kit = load_kit(disk, path);
  Loaded<Job> job;
  job.diagnostics = std::move(kit.diagnostics);
  if (kit.value) job.value = job_of_kit(*kit.value);
  return job;
}

OpenedJob open_kit_or_job(const std::string& path) {
  DiskFiles disk;
  if (!names_a_kit(disk, path)) return open_and_assess(path);
  OpenedJob opened;
  opened.file = read_kit_or_job(path);
  if (opened.file.value) opened.assessment = std::make_unique<Assessment>(assess_kit(*opened.file.value));
  return opened;
}

OpenedSurvey open_survey(const std::string& path) {
  DiskFiles disk;
  OpenedSurvey opened;
  opened.file = load_survey(disk, path);
  if (opened.file.value) opened.report = survey_report(*opened.file.value);
  return opened;
}

Loaded<Cart> open_cart(const std::string& path, bool before_the_kits) {
  DiskFiles disk;
  if (file_kind(disk, path) == "cart") return load_cart(disk, path);
  Loaded<Job> job = load_job(disk, path);
  Loaded<Cart> cart;
  cart.diagnostics = std::move(job.diagnostics);
  if (!job.value) return cart;
  cart.value = before_the_kits ? std::move(job.value->cart) : fitted_cart(*job.value);
  return cart;
}

std::string short_name(const std::string& path) {
  std::filesystem::path p = std::filesystem::path(path).lexically_normal();
  if (!p.has_filename()) p = p.parent_path();
  if (p.filename() == "job.toml" && p.has_parent_path()) p = p.parent_path();
  if (p.filename() == "." || p.filename() == "..") p = std::filesystem::absolute(p).lexically_normal();
  return p.stem().empty() ? "job" : p.stem().string();
}

std::string write_file(const std::string& path, const std::string& bytes) {
  const std::string part = path + ".part";
  {
    std::ofstream file(part, std::ios::binary | std::ios::trunc);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.flush();
    if (!file) {
      const std::string why = std::strerror(errno);
      std::remove(part.c_str());
      return why;
    }
  }
  if (std::rename(part.c_str(), path.c_str()) != 0) return std::strerror(errno);
  return {};
}

}  // namespace trammel
