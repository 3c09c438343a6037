#include "jobfile/open.h"

#include <algorithm>

#include "jobfile/parse.h"

namespace trammel {

namespace {

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  return slash == std::string::npos ? std::string() : path.substr(0, slash + 1);
}

std::string code_of(FileFault fault) {
  switch (fault) {
    case FileFault::missing:
      return "file-missing";
    case FileFault::folder:
      return "file-is-folder";
    case FileFault::too_big:
      return "file-too-big";
    case FileFault::unreadable:
      return "file-unreadable";
    case FileFault::outside:
      break;
  }
  return "path-leaves-folder";
}

// "./a//b.toml" as "a/b.toml"; nothing for a path that is absolute or climbs.
std::optional<std::string> plain(std::string_view path) {
  const bool drive = path.size() > 1 && path[1] == ':';
  if (path.starts_with('/') || drive || path.find('\\') != path.npos) return std::nullopt;
  std::string out;
  for (std::size_t i = 0; i <= path.size();) {
    const std::size_t end = std::min(path.find('/', i), path.size());
    const std::string_view part = path.substr(i, end - i);
    if (part == "..") return std::nullopt;
    if (!part.empty() && part != ".") out.append(out.empty() ? "" : "/").append(part);
    i = end + 1;
  }
  return out;
}

}  // namespace

std::optional<Node> Opener::open_first(const std::string& path, const std::string& in_folder, Includes includes) {
  std::string file = path;
  auto bytes = files_.read(file, {});
  if (const auto* fault = std::get_if<FileFault>(&bytes); fault && *fault == FileFault::folder) {
    file = path.ends_with('/') || path.empty() ? path + in_folder : path + "/" + in_folder;
    bytes = files_.read(file, {});
  }
  folder_ = folder_of(file);
  if (const auto* fault = std::get_if<FileFault>(&bytes)) {
    report_.add(code_of(*fault), {{"file", file}}, {file, 0, 0});
    return std::nullopt;
  }
  auto root = parse(file, std::move(std::get<std::string>(bytes)), report_);
  if (!root || includes == Includes::not_followed) return root;
  stack_ = {file};
  const bool whole = merge_includes(*root, file);
  stack_.clear();
  if (!whole) return std::nullopt;
  return root;
}

std::optional<Node> Opener::open_named(const Node& named) { return open_included(named, folder_); }

std::optional<std::string> Opener::below(const std::string& folder, const Node& named) {
  if (named.kind != Node::Kind::text) {
    report_.at(named, "wrong-shape", {{"key", "a file"}, {"wanted", "text"}, {"found", std::string(kind_name(named))}});
    return std::nullopt;
  }
  const auto path = plain(named.text);
  if (path && !path->empty()) return folder + *path;
  report_.at(named, "path-leaves-folder", {{"file", named.text}});
  return std::nullopt;
}

std::optional<Node> Opener::open_included(const Node& named, const std::string& from) {
  const auto path = below(from, named);
  if (!path) return std::nullopt;
  if (std::find(stack_.begin(), stack_.end(), *path) != stack_.end()) {
    report_.at(named, "include-circle", {{"file", named.text}});
    return std::nullopt;
  }
  return open(*path, named.place, named.length);
}

std::optional<Node> Opener::open(const std::string& path, const Place& asked, int length) {
  auto bytes = files_.read(path, folder_.empty() ? "." : folder_);
  if (const auto* fault = std::get_if<FileFault>(&bytes)) {
    report_.add(code_of(*fault), {{"file", path}}, asked, length);
    return std::nullopt;
  }
  auto root = parse(path, std::move(std::get<std::string>(bytes)), report_);
  if (!root) return std::nullopt;
  stack_.push_back(path);
  const bool whole = merge_includes(*root, path);
  stack_.pop_back();
  if (!whole) return std::nullopt;
  return root;
}

bool Opener::merge_includes(Node& root, const std::string& path) {
  const auto at =
      std::find_if(root.members.begin(), root.members.end(), [](const Member& m) { return m.key == "include"; });
  if (at == root.members.end()) return true;
  const Node list = std::move(at->value);
  root.members.erase(at);
  if (list.kind != Node::Kind::list) {
    report_.at(list, "wrong-shape",
               {{"key", "include"}, {"wanted", "a list"}, {"found", std::string(kind_name(list))}});
    return false;
  }
  bool whole = true;
  for (const Node& named : list.items) {
    auto included = open_included(named, folder_of(path));
    whole = included && merge(root, std::move(*included)) && whole;
  }
  return whole;
}

// False where something stands twice; everything else is merged, so that all such faults are told.
bool Opener::merge(Node& into, Node&& from) {
  bool whole = true;
  for (Member& member : from.members) {
    const auto there =
        std::find_if(into.members.begin(), into.members.end(), [&](const Member& m) { return m.key == member.key; });
    if (there == into.members.end()) {
      into.members.push_back(std::move(member));
    } else if (there->value.kind == Node::Kind::table && member.value.kind == Node::Kind::table) {
      whole = merge(there->value, std::move(member.value)) && whole;
    } else if (there->value.kind == Node::Kind::list && member.value.kind == Node::Kind::list) {
      auto& items = there->value.items;
      std::move(member.value.items.begin(), member.value.items.end(), std::back_inserter(items));
    } else if (member.key != "format" || member.value.text != there->value.text) {
      report_.at(member, "key-twice", {{"key", member.key}}).other = there->place;
      whole = false;
    }
  }
  return whole;
}

}  // namespace trammel
