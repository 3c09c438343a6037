#include "job/overlay.h"

#include <cmath>

#include "job/mirror.h"
#include "job/path.h"

namespace trammel {

namespace {

template <class T, class Variant>
inline constexpr bool is_alternative = false;
template <class T, class... Alternatives>
inline constexpr bool is_alternative<T, std::variant<Alternatives...>> = (std::is_same_v<T, Alternatives> || ...);
template <class T>
inline constexpr bool can_be_changed = is_alternative<T, ChangeValue>;

// What all acts share: whether they may create, and how they fail.
struct ActBase {
  OverlayProblem problem;
  bool failed = false;
  bool creates() const { return false; }
  bool any_name() const { return false; }
  void refuse(OverlayFault fault, std::string_view word) { path::fail(*this, fault, word, {}); }
};

// A wheel, or a table below one: what moves as one piece. An axle also holds points of the body.
template <class M>
inline constexpr bool is_movable_table = is_table<M> && !std::is_same_v<M, Axle> && !std::is_same_v<M, Cart>;

std::optional<Length> joint(std::optional<Length> a, std::optional<Length> b) {
  if (!a || !b) return a ? a : b;
  return hypot(*a, *b);
}
template <class Q>
std::optional<Q> joint(std::optional<Q> a, std::optional<Q> b) {
  if (!a || !b) return a ? a : b;
  return from_si<Q>(std::hypot(si_of(*a), si_of(*b)));
}

// A value without a place of its own stands where its change stands.
template <class T>
void settle_place(T& value, const Place& place) {
  if constexpr (requires { value.place; }) {
    if (value.place.line == 0) value.place = place;
  }
}

template <class T>
bool name_taken(const std::vector<T>& list, const std::string& name, std::size_t except) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (i != except && list[i].name.value == name) return true;
  return false;
}

struct Set : ActBase {
  explicit Set(const Change& c) : change(c) {}
  const Change& change;
  bool creates() const { return true; }

  template <class M>
  void at(const Key& key, M& member) {
    if constexpr (is_optional<M>) {
      if (!member) member.emplace();
      at(key, *member);
    } else if constexpr (can_be_changed<M>) {
      const M* value = std::get_if<M>(&change.value);
      if (!value) return refuse(OverlayFault::wrong_type, key.name);
      member = *value;
      settle_place(member, change.place);
    } else {
      refuse(OverlayFault::wrong_type, key.name);
    }
  }
  template <class T>
  void item(const Key& key, std::vector<T>& list, std::size_t n) {
    if constexpr (can_be_changed<T>) {
      const T* value = std::get_if<T>(&change.value);
      if (!value) return refuse(OverlayFault::wrong_type, key.name);
      if (name_taken(list, value->name.value, n)) return refuse(OverlayFault::name_taken, value->name.value);
    }
    at(key, list[n]);
  }
};

struct Move : ActBase {
  explicit Move(const Change& c) : change(c) {}
  const Change& change;

  template <class M>
  void at(const Key& key, M& member) {
    if constexpr (is_optional<M>) {
      if (!member) return refuse(OverlayFault::nothing_there, key.name);
      at(key, *member);
    } else if constexpr (is_valued<M> || std::is_same_v<M, PointValue>) {
      const M* by = std::get_if<M>(&change.value);
      if (!by) return refuse(OverlayFault::wrong_type, key.name);
      M moved = *by;
      moved.value = member.value + by->value;
      moved.u = joint(member.u, by->u);
      settle_place(moved, change.place);
      member = moved;
    } else if constexpr (is_movable_table<M>) {
      MovePoints points{*this};
      fields(points, member);
      if (points.moved == 0) refuse(OverlayFault::wrong_type, key.name);
    } else {
      refuse(OverlayFault::wrong_type, key.name);
    }
  }

  // Every point that is given in a table and in the tables of it.
  struct MovePoints {
    Move& act;
    int moved = 0;
    template <class M>
    void field(const Key& key, M& member) {
      if constexpr (is_optional<M>) {
        if (member) field(key, *member);
      } else if constexpr (std::is_same_v<M, PointValue>) {
        act.at(key, member);
        ++moved;
      } else if constexpr (is_movable_table<M>) {
        fields(*this, member);
      }
    }
  };
  template <class T>
  void item(const Key& key, std::vector<T>&, std::size_t) {
    refuse(OverlayFault::wrong_type, key.name);
  }
};

struct Add : ActBase {
  explicit Add(const Change& c) : change(c) {}
  const Change& change;
  bool creates() const { return true; }

  template <class M>
  void at(const Key& key, M& member) {
    if constexpr (is_named_list<M>) {
      const auto* value = std::get_if<typename M::value_type>(&change.value);
      if (!value) return refuse(OverlayFault::wrong_type, key.name);
      if (name_taken(member, value->name.value, member.size()))
        return refuse(OverlayFault::name_taken, value->name.value);
      member.push_back(*value);
    } else {
      refuse(OverlayFault::wrong_type, key.name);
    }
  }
  template <class T>
  void item(const Key&, std::vector<T>& list, std::size_t n) {
    refuse(OverlayFault::name_taken, list[n].name.value);
  }
};

struct Remove : ActBase {
  template <class M>
  void at(const Key& key, M& member) {
    if constexpr (is_optional<M>) {
      if (!member) return refuse(OverlayFault::nothing_there, key.name);
      if (key.need == Need::required) return refuse(OverlayFault::needed, key.name);
      member.reset();
    } else {
      refuse(OverlayFault::needed, key.name);
    }
  }
  template <class T>
  void item(const Key&, std::vector<T>& list, std::size_t n) {
    list.erase(list.begin() + static_cast<std::ptrdiff_t>(n));
  }
};

// Only looks what stands there.
struct Look : ActBase {
  Look(ListNames n, bool move) : names(n), moves(move) {}
  ListNames names;
  bool moves;
  OverlayTarget target;
  bool creates() const { return true; }
  bool any_name() const { return names == ListNames::any; }

  template <class M>
  void at(const Key& key, M& member) {
    if constexpr (is_optional<M>) {
      if (!member) member.emplace();
      at(key, *member);
    } else if constexpr (is_named_list<M>) {
      target = {typename M::value_type{}, key, true};
    } else if constexpr (can_be_changed<M>) {
      target = {M{}, key, false};
    } else if constexpr (is_table<M>) {
      if (is_movable_table<M> && moves)
        target = {PointValue{}, key, false};
      else
        path::fail(*this, OverlayFault::wrong_type, key.name, key_names<M>());
    }
  }
  template <class T>
  void item(const Key& key, std::vector<T>&, std::size_t) {
    target = {T{}, key, false};
  }
};

// One change at one path; the cart is left as it was where it fails.
std::optional<OverlayProblem> change_once(Cart& cart, const Change& change) {
  Cart next = cart;
  const auto run = [&](auto act) -> std::optional<OverlayProblem> {
    path::descend(next, change.path, act);
    if (!act.failed) return std::nullopt;
    act.problem.path = change.path;
    act.problem.place = change.place;
    return act.problem;
  };
  std::optional<OverlayProblem> problem;
  switch (change.act) {
    case Change::Act::set:
      problem = run(Set(change));
      break;
    case Change::Act::move:
      problem = run(Move(change));
      break;
    case Change::Act::add:
      problem = run(Add(change));
      break;
    case Change::Act::remove:
      problem = run(Remove());
      break;
  }
  if (!problem) cart = std::move(next);
  return problem;
}

Change on_the_other_side(Change change) {
  change.path = other_side(change.path);
  change.value = mirrored(std::move(change.value));
  return change;
}

// The axle whose left or right side a path leads into; null where it leads elsewhere.
std::optional<Axle>* sided_axle(Cart& cart, std::string_view path, bool& on_left) {
  for (const auto& [start, axle] : {std::pair("front.", &cart.front), std::pair("rear.", &cart.rear)}) {
    if (!path.starts_with(start)) continue;
    const std::string_view rest = path.substr(std::string_view(start).size());
    on_left = rest == "left" || rest.starts_with("left.");
    if (on_left || rest == "right" || rest.starts_with("right.")) return axle;
  }
  return nullptr;
}

std::optional<OverlayProblem> change_both(Cart& cart, const Change& change, const Change& other) {
  Cart next = cart;
  auto problem = change_once(next, change);
  if (!problem) problem = change_once(next, other);
  if (!problem) cart = std::move(next);
  return problem;
}

std::optional<OverlayProblem> lay_over(Cart& cart, const Change& change) {
  const Change other = on_the_other_side(change);
  bool on_left = true;
  std::optional<Axle>* axle = sided_axle(cart, change.path, on_left);

  // Not on one side of an axle: items with a side in their names have a mirror image.
  if (!axle) {
    if (!change.mirror) return change_once(cart, change);
    const auto label = [](const ChangeValue& value) {
      return std::visit(
          [](const auto& v) {
            if constexpr (Named<std::decay_t<decltype(v)>>)
              return v.name.value;
            else
              return std::string();
          },
          value);
    };
    if (other.path == change.path && label(other.value) == label(change.value)) {
      OverlayProblem problem{OverlayFault::no_other_side, change.path, {}, change.place, {}, {}};
      return problem;
    }
    return change_both(cart, change, other);
  }

  // A symmetric axle: once on the left, or first written out.
  const bool symmetric = !*axle || !(*axle)->right;
  if (symmetric && change.mirror) return change_once(cart, on_left ? change : other);
  if (!change.mirror) {
    Cart next = cart;
    if (symmetric && *axle) {
      std::optional<Axle>& written = change.path.starts_with("front.") ? next.front : next.rear;
      written->right = right_corner(*written);
    }
    auto problem = change_once(next, change);
    if (!problem) cart = std::move(next);
    return problem;
  }
  return change_both(cart, change, other);
}

}  // namespace

OverlayResult apply(const Cart& cart, std::span<const Change> changes) {
  OverlayResult result{cart, {}};
  for (const Change& change : changes)
    if (auto problem = lay_over(result.cart, change)) result.problems.push_back(std::move(*problem));
  return result;
}

std::optional<OverlayTarget> find_target(const Cart& cart, const std::string& path, OverlayProblem* problem,
                                         ListNames names, bool to_move) {
  Cart scratch = cart;
  // A right side that is not given has the names of the left one.
  for (auto* axle : {&scratch.front, &scratch.rear})
    if (*axle && !(*axle)->right) (*axle)->right = right_corner(**axle);
  Look look(names, to_move);
  path::descend(scratch, path, look);
  if (!look.failed) return look.target;
  look.problem.path = path;
  if (problem) *problem = look.problem;
  return std::nullopt;
}

ChangeValue value_type(const Cart& cart, const std::string& path, OverlayProblem* problem) {
  const auto target = find_target(cart, path, problem);
  return target ? target->value : ChangeValue{};
}

Corner right_corner(const Axle& axle) {
  if (axle.right) return *axle.right;
  return axle.left ? mirrored(*axle.left) : Corner{};
}

}  // namespace trammel
