#include "leeway/validate.h"
#include "model/setup/door.h"

#include <algorithm>
#include <set>
#include <string_view>

#include "geometry/plane/assert.h"
#include "geometry/plane/position.h"
#include "model/setup/validate_shape.h"

namespace leeway {
namespace {

// Leeways are compared in this step (mm), so nothing smaller is a difference.
constexpr double kStep = 1e-6;

bool is_blank(std::string_view name) { return name.find_first_not_of(' ') == name.npos; }

bool all_digits(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

// "grid C,R", as the points of the grid are called.
bool is_grid_name(std::string_view name) {
  constexpr std::string_view kStart = "grid ";
  const std::size_t comma = name.find(',');
  return name.substr(0, kStart.size()) == kStart && comma != std::string_view::npos &&
         all_digits(name.substr(kStart.size(), comma - kStart.size())) &&
         all_digits(name.substr(comma + 1));
}

// A user's name must not be one that the program gives itself: text and JSON could not tell them
// apart.
bool is_reserved(SetupField kind, std::string_view name) {
  if (kind == SetupField::part_name) return name == "nozzle" || name == "probe body";
  return kind == SetupField::point_name && (name == "home" || is_grid_name(name));
}

// Names that are needed, and have to differ.
class NameRules {
 public:
  NameRules(SetupField kind, SetupFaults& faults) : kind_(kind), faults_(faults) {}

  void check(std::size_t item, const std::string& name) {
    const SetupPlace place{kind_, SetupDetail::whole, item};
    // Without a name there is nothing more to say of it.
    if (is_blank(name)) return faults_.push_back({place, BlankName{name.empty()}});
    if (is_reserved(kind_, name)) faults_.push_back({place, ReservedName{name}});
    if (!names_.insert(name).second) faults_.push_back({place, DuplicateName{name}});
  }

 private:
  SetupField kind_;
  SetupFaults& faults_;
  std::set<std::string_view> names_;
};

// An empty name is no name.
void check_title(const std::string& name, SetupField field, SetupFaults& faults) {
  if (!name.empty() && is_blank(name)) faults.push_back({{field}, BlankName{false}});
}

void check_obstacles(const std::vector<Obstacle>& obstacles, SetupFaults& faults) {
  NameRules names(SetupField::obstacle_name, faults);
  for (std::size_t i = 0; i < obstacles.size(); ++i) {
    const Obstacle& obstacle = obstacles[i];
    const auto place = [&](SetupField field) { return SetupPlace{field, SetupDetail::whole, i}; };
    names.check(i, obstacle.name);
    check_shape(obstacle.shape, PointAllowed::no, place(SetupField::obstacle_shape), faults);
    if (obstacle.height != kUnlimitedHeight) {
      check_number(obstacle.height, NumberRange::distance, place(SetupField::obstacle_height),
                   faults);
    }
    check_number(obstacle.clearance, NumberRange::distance, place(SetupField::obstacle_clearance),
                 faults);
  }
}

void check_top(const std::optional<double>& top, double underside, const SetupPlace& place,
               SetupFaults& faults) {
  if (!top || !check_number(*top, NumberRange::length, place, faults)) return;
  // Of an underside that is no number there is nothing more to say.
  if (in_range(underside, NumberRange::length) && *top <= underside)
    faults.push_back({place, NoHeight{*top, underside}});
}

void check_head(const std::vector<HeadPart>& head, SetupFaults& faults) {
  NameRules names(SetupField::part_name, faults);
  for (std::size_t i = 0; i < head.size(); ++i) {
    const auto place = [&](SetupField field) { return SetupPlace{field, SetupDetail::whole, i}; };
    names.check(i, head[i].name);
    check_shape(head[i].outline, PointAllowed::no, place(SetupField::part_outline), faults);
    check_number(head[i].underside, NumberRange::distance, place(SetupField::part_underside),
                 faults);
    check_top(head[i].top, head[i].underside, place(SetupField::part_top), faults);
  }
}

void check_mount(const Mount& mount, SetupFaults& faults) {
  if (mount.envelope) {
    check_shape(*mount.envelope, PointAllowed::no, {SetupField::envelope}, faults);
  }
  NameRules names(SetupField::keep_clear_name, faults);
  for (std::size_t i = 0; i < mount.keep_clear.size(); ++i) {
    names.check(i, mount.keep_clear[i].name);
    check_shape(mount.keep_clear[i].outline, PointAllowed::no,
                {SetupField::keep_clear_outline, SetupDetail::whole, i}, faults);
  }
}

struct SoundAreas {
  bool bed = false;
  bool travel = false;
};

SoundAreas check_machine(const Machine& machine, SetupFaults& faults) {
  SoundAreas sound;
  check_title(machine.name, SetupField::machine_name, faults);
  sound.bed = check_shape(machine.bed, PointAllowed::no, {SetupField::bed}, faults);
  sound.travel = check_shape(machine.travel, PointAllowed::no, {SetupField::travel}, faults);
  check_number(machine.print_inset, NumberRange::distance, {SetupField::print_inset}, faults);
  check_obstacles(machine.obstacles, faults);
  check_head(machine.head, faults);
  check_number(machine.travel_uncertainty, NumberRange::distance, {SetupField::travel_uncertainty},
               faults);
  check_number(machine.bed_uncertainty, NumberRange::distance, {SetupField::bed_uncertainty},
               faults);
  return sound;
}

void check_probe(const Probe& probe, SetupFaults& faults) {
  check_title(probe.name, SetupField::probe_name, faults);
  check_pair(probe.offset, NumberRange::length, {SetupField::offset}, faults);
  check_pair(probe.offset_uncertainty, NumberRange::distance, {SetupField::offset_uncertainty},
             faults);
  check_shape(probe.spot, PointAllowed::yes, {SetupField::spot}, faults);
  check_number(probe.edge_distance, NumberRange::distance, {SetupField::edge_distance}, faults);
  check_number(probe.trigger_height, NumberRange::distance, {SetupField::trigger_height}, faults);
  if (probe.travel_height) {
    check_number(*probe.travel_height, NumberRange::distance, {SetupField::travel_height}, faults);
  }
  if (!probe.body) return;
  check_shape(probe.body->outline, PointAllowed::no, {SetupField::body_outline}, faults);
  check_number(probe.body->underside, NumberRange::length, {SetupField::body_underside}, faults);
  check_top(probe.body->top, probe.body->underside, {SetupField::body_top}, faults);
}

// Two columns need a width between them, a single one only a place.
bool leaves_place(double left, int count) { return count > 1 ? left > kStep : left >= -kStep; }

class GridRules {
 public:
  GridRules(const Grid& grid, SetupFaults& faults) : grid_(grid), faults_(faults) {}

  void check(const Machine& machine, SoundAreas sound) {
    check_counts();
    if (const Box* box = std::get_if<Box>(&grid_.extent)) {
      // A single column or row may have one place, and so may a number of them that won't do.
      check_bounds(*box, columns_ <= 1, rows_ <= 1, {SetupField::bounds}, faults_);
      return;
    }
    const auto& margins = std::get<Margins>(grid_.extent);
    const bool from_bed = margins.from == Margins::From::bed;
    const bool known = check_margins(margins) && columns_ > 0 && rows_ > 0;
    // Margins are taken from a box, which a shape at fault may not have.
    if (known && (from_bed ? sound.bed : sound.travel)) {
      check_place_left(margins, bounding_box(from_bed ? machine.bed : machine.travel));
    }
  }

 private:
  // Counts that will not do are 0 from here on.
  void check_counts() {
    const auto count = [&](int number, SetupField field) {
      return check_number(number, NumberRange::count, {field}, faults_) ? number : 0;
    };
    columns_ = count(grid_.columns, SetupField::columns);
    rows_ = count(grid_.rows, SetupField::rows);
    // In 64 bits: each count alone may be as large as the product.
    if (static_cast<std::int64_t>(columns_) * rows_ <= kMostGridPoints) return;
    faults_.push_back({{SetupField::grid}, TooManyPoints{columns_, rows_}});
    columns_ = 0;
  }

  bool check_margins(const Margins& margins) {
    const auto side = [&](double number, SetupDetail detail) {
      return check_number(number, NumberRange::length, {SetupField::margins, detail}, faults_);
    };
    const bool left = side(margins.left, SetupDetail::left);
    const bool right = side(margins.right, SetupDetail::right);
    const bool front = side(margins.front, SetupDetail::front);
    return both(side(margins.back, SetupDetail::back), left && right && front);
  }

  void check_place_left(const Margins& margins, const Box& box) {
    const auto along = [&](bool x, double taken, double size, int count) {
      if (leaves_place(size - taken, count)) return;
      faults_.push_back({{SetupField::margins}, MarginsMeet{x, taken, size, margins.from}});
    };
    along(true, margins.left + margins.right, box.width(), columns_);
    along(false, margins.front + margins.back, box.depth(), rows_);
  }

  const Grid& grid_;
  SetupFaults& faults_;
  int columns_ = 0;
  int rows_ = 0;
};

void check_request(const Request& request, const Machine& machine, SoundAreas sound,
                   SetupFaults& faults) {
  if (request.grid) GridRules(*request.grid, faults).check(machine, sound);
  NameRules names(SetupField::point_name, faults);
  for (std::size_t i = 0; i < request.points.size(); ++i) {
    names.check(i, request.points[i].name);
    check_pair(request.points[i].at, NumberRange::length,
               {SetupField::point_at, SetupDetail::whole, i}, faults);
  }
  if (request.home) {
    check_pair(request.home->at, NumberRange::length, {SetupField::home_at}, faults);
  }
}

std::string summary(const SetupFaults& faults) {
  LEEWAY_ASSERT(!faults.empty());
  const std::string first =
      std::string(code(faults.front())) + " at " + words(faults.front().place);
  const std::size_t more = faults.size() - 1;
  return "the setup may not be used: " + first +
         (more > 0 ? ", and " + std::to_string(more) + " more faults" : "");
}

}  // namespace

SetupFaults validate(const Setup& setup) {
  SetupFaults faults;
  check_title(setup.name, SetupField::name, faults);
  check_number(setup.coverage_factor, NumberRange::coverage_factor, {SetupField::coverage_factor},
               faults);
  const SoundAreas sound = check_machine(setup.machine, faults);
  check_probe(setup.probe, faults);
  check_request(setup.request, setup.machine, sound, faults);
  check_mount(setup.mount, faults);
  return faults;
}

SetupFaults validate(const Probe& probe) {
  SetupFaults faults;
  check_probe(probe, faults);
  return faults;
}

void require_valid(const Setup& setup) {
  SetupFaults faults = validate(setup);
  if (!faults.empty()) throw InvalidSetup(std::move(faults));
}

namespace {

// Trials of `explain` change one value of a setup that has passed. What only a request or a name
// spoils does not touch limits.
bool spoils_no_verdict(const SetupFault& fault) {
  switch (fault.place.field) {
    case SetupField::name:
    case SetupField::machine_name:
    case SetupField::obstacle_name:
    case SetupField::part_name:
    case SetupField::probe_name:
    case SetupField::keep_clear_name:
    case SetupField::grid:
    case SetupField::columns:
    case SetupField::rows:
    case SetupField::bounds:
    case SetupField::margins:
    case SetupField::point_name:
    case SetupField::point_at:
    case SetupField::home_at:
      return true;
    default:
      break;
  }
  // A trial may move a length beyond what a file may hold. Up to kFarthest leeways are exact.
  const auto* number = std::get_if<OutOfRange>(&fault.what);
  return number != nullptr && number->range == NumberRange::length &&
         std::abs(number->found) <= kFarthest;
}

}  // namespace

void require_valid_trial(const Setup& changed) {
  SetupFaults faults = validate(changed);
  if (!std::all_of(faults.begin(), faults.end(), spoils_no_verdict)) {
    throw InvalidSetup(std::move(faults));
  }
}

void require_valid_offset(const Setup& setup, Point offset) {
  Probe probe = setup.probe;
  probe.offset = offset;
  SetupFaults faults = validate(probe);
  if (!faults.empty()) throw InvalidSetup(std::move(faults));
}

InvalidSetup::InvalidSetup(std::vector<SetupFault> faults)
    : Error(summary(faults)),
      faults_(std::make_shared<const std::vector<SetupFault>>(std::move(faults))) {}

}  // namespace leeway
