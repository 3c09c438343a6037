// What every sheet is given, and the sheets.
#pragma once

#include "sheets/marks.h"
#include "sheets/page.h"
#include "sheets/words.h"

namespace trammel::sheets {

struct Given {
  const Job& job;
  const Cart& cart_after;  // the cart with its kits on
  const Assessment& assessment;
  const Words& words;

  // Markup: a number with its unit, its uncertainty and the letter of its basis.
  std::string marked(const Number& number, Basis basis) const {
    return escape(words.print(number)) + basis_mark(words, basis);
  }
  template <class Q>
  std::string computed(Q q) const {
    return marked(number(q), Basis::computed);
  }
  template <class Q>
  std::string given(const Valued<Q>& v) const {
    return marked(v.u ? number(v.value, *v.u) : number(v.value), v.basis);
  }
  std::string line(const std::string& code, const Arguments& arguments = {}) const {
    return escape(words(code, arguments));
  }
  // A message as a sentence of its own: a large letter first, a full stop last.
  std::string sentence(const Message& message) const {
    const std::string text = begun(words.say(message));
    const bool ends = text.empty() || text.ends_with('.') || text.ends_with('?') || text.ends_with(':');
    return escape(ends ? text : text + ".");
  }
};

void lay_quote_sheet(const Given& given, Book& book);
void lay_pack_sheet(const Given& given, Book& book);
void lay_work_sheet(const Given& given, Book& book);
void lay_torque_record(const Given& given, Book& book);
void lay_alignment_sheet(const Given& given, Book& book);
void lay_clearance_sheet(const Given& given, Book& book);
void lay_geometry_sheet(const Given& given, Book& book);
bool has_geometry(const Given& given);  // whether it is known of any axle how it moves
void lay_booklet(const Given& given, Book& book);
void lay_owner_page(const Given& given, Book& book);

}  // namespace trammel::sheets
