// Gathers diagnostics and knows the text of every file that was opened.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "jobfile/diagnostic.h"
#include "jobfile/tree.h"

namespace trammel {

using Arguments = std::vector<std::pair<std::string, Argument>>;

class Report {
 public:
  void open(std::string path, std::string text);

  Diagnostic& add(std::string code, Arguments arguments, const Place& place, int length = 1);
  Diagnostic& at(const Node& node, std::string code, Arguments arguments);
  Diagnostic& at(const Member& member, std::string code, Arguments arguments);  // at its key

  std::size_t size() const { return diagnostics_.size() + left_out_; }
  // By file in the order opened, then by place. Of very many, the first ones found and how many more.
  std::vector<Diagnostic> take();
  // A line of an opened file, without its end; empty where there is none.
  std::string_view line(const Place& place) const;

 private:
  struct Source {
    std::string path, text;
    std::vector<std::size_t> starts;  // of the lines
  };
  const Source* source(const std::string& path) const;
  std::size_t order_of(const std::string& path) const;
  std::vector<Source> sources_;
  std::vector<Diagnostic> diagnostics_;
  Diagnostic unseen_;  // stands for those that are only counted
  std::size_t left_out_ = 0;
};

// A place some characters further on its line.
Place moved(Place place, int columns);

// Characters (code points) in UTF-8 bytes.
int characters(std::string_view utf8);

}  // namespace trammel
