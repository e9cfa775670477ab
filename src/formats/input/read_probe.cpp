#include "formats/input/read_probe.h"
#include "leeway/read_probe.h"

#include "formats/input/fields.h"
#include "formats/input/read_shape.h"

namespace leeway {
namespace {

constexpr std::string_view kProbeWords = "a probe { ... }, or the path of a probe file";
constexpr std::string_view kOffsetWords = "two numbers [x, y] in mm, from the nozzle to the probe";
constexpr std::string_view kUncertaintyWords =
    "two numbers [x, y] in mm, not negative: the standard uncertainty of each";

std::optional<bool> read_stowed(JsonValue value) {
  if (value.is(JsonKind::boolean)) return value.number() != 0;
  value.fault("wrong-type", describe(value), "true, or false where it stays down while printing");
  return std::nullopt;
}

// What is not known of a probe while its profiles are read.
struct Layers {
  Probe probe;
  bool offset_given = false;  // even where it is at fault
  bool complete = true;       // no profile is missing
};

struct BodySlots {
  Slot outline, underside, top;
};

ProbeBody read_body(JsonValue value, const BodySlots& slots) {
  const Fields fields(value, {"outline", "underside", "top"},
                      "{\"outline\": a shape, \"underside\": mm above the nozzle tip}");
  ProbeBody body;
  read_if_there(fields, "underside", body.underside, read_number, NumberRange::length,
                slots.underside);
  if (fields.has("top")) {
    read_if_there(fields, "top", body.top.emplace(), read_number, NumberRange::length, slots.top);
  }
  if (const auto outline = fields.need("outline", "a shape, relative to the probe point")) {
    body.outline = read_shape(*outline, slots.outline);
  }
  return body;
}

void read_keys(const Fields& fields, Layers& layers) {
  Probe& probe = layers.probe;
  Places places;
  const auto slot = [&](SetupField field) { return Slot{{field}, places}; };
  const auto distance = [&](std::string_view key, SetupField field, double& into) {
    read_if_there(fields, key, into, read_number, NumberRange::distance, slot(field));
  };
  layers.offset_given = layers.offset_given || fields.has("offset");
  read_if_there(fields, "name", probe.name, read_name, NameNeeded::no,
                slot(SetupField::probe_name));
  if (const auto offset = fields.find("offset")) {
    probe.offset = read_pair(*offset, NumberRange::length, kOffsetWords, slot(SetupField::offset))
                       .value_or(probe.offset);
  }
  if (const auto uncertainty = fields.find("offset_uncertainty")) {
    probe.offset_uncertainty = read_pair(*uncertainty, NumberRange::distance, kUncertaintyWords,
                                         slot(SetupField::offset_uncertainty))
                                   .value_or(probe.offset_uncertainty);
  }
  if (const auto spot = fields.find("spot")) {
    probe.spot = read_shape(*spot, slot(SetupField::spot));
  }
  distance("edge_distance", SetupField::edge_distance, probe.edge_distance);
  distance("trigger_height", SetupField::trigger_height, probe.trigger_height);
  if (fields.has("travel_height")) {
    distance("travel_height", SetupField::travel_height, probe.travel_height.emplace());
  }
  if (const auto body = fields.find("body")) {
    probe.body = read_body(*body, {slot(SetupField::body_outline), slot(SetupField::body_underside),
                                   slot(SetupField::body_top)});
  }
  read_if_there(fields, "stowed", probe.stowed, read_stowed);
  // Here, where the places of this layer are known: what a layer above replaces is looked at too.
  places.note(validate(probe));
}

void read_layer(JsonValue value, bool is_file, Sources& sources, Layers& layers);

void read_file(JsonValue path, Sources& sources, Layers& layers) {
  JsonFile* file = sources.open(path, FileKind::probe);
  const auto root = file != nullptr ? file->root() : std::nullopt;
  if (root) {
    read_layer(*root, true, sources, layers);
  } else {
    layers.complete = false;
  }
}

// A profile is read first, so that the keys beside it replace its own.
void read_layer(JsonValue value, bool is_file, Sources& sources, Layers& layers) {
  const WordList keys = {
      "format", "profile",       "name",           "offset",        "offset_uncertainty",
      "spot",   "edge_distance", "trigger_height", "travel_height", "body",
      "stowed"};
  const bool other_kind = is_other_kind(value, FileKind::probe);
  if (other_kind || !value.is(JsonKind::object)) layers.complete = false;
  if (other_kind) return;
  const Fields fields(value, keys, kProbeWords);
  if (!fields.is_object()) return;
  check_format(fields, FileKind::probe, is_file);
  if (const auto profile = fields.find("profile")) {
    if (profile->is(JsonKind::string)) {
      read_file(*profile, sources, layers);
    } else {
      layers.complete = false;
      if (!profile->is(JsonKind::not_finite)) {
        profile->fault("wrong-type", describe(*profile), "the path of a probe file, as a text");
      }
    }
  }
  read_keys(fields, layers);
}

}  // namespace

Probe read_probe(JsonValue value, Sources& sources) {
  Layers layers;
  if (value.is(JsonKind::string)) {
    read_file(value, sources, layers);
  } else {
    read_layer(value, false, sources, layers);
  }
  if (!layers.offset_given && layers.complete) {
    const bool profile = value.is(JsonKind::string);
    value.fault("missing-key", profile ? "a probe file without an \"offset\"" : "no key \"offset\"",
                profile ? "{\"profile\": path, \"offset\": [x, y]}"
                        : "\"offset\": " + std::string(kOffsetWords));
  }
  return layers.probe;
}

ReadProbe read_probe(const SourceFile& source, const FileFinder& finder) {
  Sources sources(source, finder);
  ReadProbe result;
  if (const auto root = sources.setup().root()) {
    Layers layers;
    read_layer(*root, true, sources, layers);
    result.probe = std::move(layers.probe);
  }
  result.faults = sources.faults();
  if (!result.faults.empty()) result.probe.reset();
  return result;
}

}  // namespace leeway
