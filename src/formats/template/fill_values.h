#pragma once
// What a template may name, and what it stands for.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "leeway/fill.h"

namespace leeway {

using FillKind = FillName::Kind;

// One item of a list: a point.
struct FillItem {
  std::string name;
  int column = 0;
  int row = 0;
  PlaceNumbers place;
  Finding finding;
  std::optional<Point> nearest;
  bool last = false;
};

struct FillEntry {
  FillName name;
  // Of a value. `item` is null outside lists. Nothing where there is none.
  std::function<std::optional<std::string>(const FillFacts&, const FillItem*)> value;
  std::function<bool(const FillFacts&, const FillItem*)> choice;
};

// Kinds of entries in the order of the table in profiles/README.md; those of lists' items come
// after the list.
const std::vector<FillEntry>& fill_entries();

// The items of the list with this name.
std::vector<FillItem> fill_items(const FillFacts& facts, const std::string& list);

}  // namespace leeway
