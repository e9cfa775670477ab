#pragma once
// A setup given as a few numbers that someone typed: as options of the command, or in a form.

#include <string>
#include <vector>

#include "formats/typed/typed_values.h"
#include "leeway/setup.h"

namespace leeway {

// As typed; empty where not given.
struct TypedNumbers {
  std::string bed, travel, offset, uncertainty, spot, edge_distance;
  std::string trigger_height, travel_height;
  std::string grid, margins, bounds, margins_from, grid_frame, home;
  std::string name, origin;
  std::vector<std::string> obstacles;  // NAME=SHAPE@HEIGHT, perhaps +CLEARANCE
  std::vector<std::string> parts;      // NAME=SHAPE@UNDERSIDE
  // Those that are read already; they come after the others.
  std::vector<Obstacle> read_obstacles;
  std::vector<HeadPart> read_parts;
  bool skip_outside = false;
};

// What each is called: the option without its dashes.
struct TypedField {
  const char* name;
  std::string TypedNumbers::*number;
};
inline constexpr TypedField kTypedFields[] = {{"bed", &TypedNumbers::bed},
                                              {"travel", &TypedNumbers::travel},
                                              {"offset", &TypedNumbers::offset},
                                              {"uncertainty", &TypedNumbers::uncertainty},
                                              {"spot", &TypedNumbers::spot},
                                              {"edge-distance", &TypedNumbers::edge_distance},
                                              {"trigger-height", &TypedNumbers::trigger_height},
                                              {"travel-height", &TypedNumbers::travel_height},
                                              {"grid", &TypedNumbers::grid},
                                              {"margins", &TypedNumbers::margins},
                                              {"bounds", &TypedNumbers::bounds},
                                              {"margins-from", &TypedNumbers::margins_from},
                                              {"grid-frame", &TypedNumbers::grid_frame},
                                              {"home", &TypedNumbers::home},
                                              {"name", &TypedNumbers::name},
                                              {"origin", &TypedNumbers::origin}};

// Those that may be given several times.
struct TypedListField {
  const char* name;
  std::vector<std::string> TypedNumbers::*list;
};
inline constexpr TypedListField kTypedLists[] = {{"obstacle", &TypedNumbers::obstacles},
                                                 {"part", &TypedNumbers::parts}};

// What the numbers amount to: the setup as a file would hold it, with comments, or every fault.
struct TypedSetup {
  std::string text;
  std::vector<TypedFault> faults;
};
TypedSetup typed_setup(const TypedNumbers& numbers);

}  // namespace leeway
