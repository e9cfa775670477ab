// What src/formats asks of the library utf8proc, from tables made by that library
// (write_tables.cpp): Debian has it for the machine's own processor only.

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <iterator>

namespace {

struct UnicodeRun {
  std::uint32_t first : 24;
  std::uint32_t kind : 8;
};
struct UnicodeKind {
  std::uint8_t category, direction, ignorable, width;
};
#include <unicode_tables.inc>

std::size_t unicode_kind(utf8proc_int32_t c) {
  if (c < 0 || c >= 0x110000) c = 0x10FFFF;  // never assigned
  const auto after = std::upper_bound(std::begin(kUnicodeRuns), std::end(kUnicodeRuns), c,
                                      [](utf8proc_int32_t code, const UnicodeRun& run) {
                                        return code < static_cast<utf8proc_int32_t>(run.first);
                                      });
  return std::prev(after)->kind;
}

std::array<utf8proc_property_t, std::size(kUnicodeKinds)> unicode_properties() {
  std::array<utf8proc_property_t, std::size(kUnicodeKinds)> out{};
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i].category = kUnicodeKinds[i].category;
    out[i].bidi_class = kUnicodeKinds[i].direction;
    out[i].ignorable = kUnicodeKinds[i].ignorable;
    out[i].charwidth = kUnicodeKinds[i].width;
  }
  return out;
}

bool continues(utf8proc_uint8_t byte) { return (byte & 0xC0) == 0x80; }

}  // namespace

extern "C" {

const utf8proc_property_t* utf8proc_get_property(utf8proc_int32_t c) {
  static const auto properties = unicode_properties();
  return &properties[unicode_kind(c)];
}

utf8proc_category_t utf8proc_category(utf8proc_int32_t c) {
  return static_cast<utf8proc_category_t>(kUnicodeKinds[unicode_kind(c)].category);
}

int utf8proc_charwidth(utf8proc_int32_t c) { return kUnicodeKinds[unicode_kind(c)].width; }

// RFC 3629.
utf8proc_ssize_t utf8proc_iterate(const utf8proc_uint8_t* text, utf8proc_ssize_t length,
                                  utf8proc_int32_t* code) {
  *code = -1;
  if (length <= 0) return 0;
  const utf8proc_uint8_t lead = text[0];
  if (lead < 0x80) {
    *code = lead;
    return 1;
  }
  const int size = lead >= 0xC2 && lead < 0xE0 ? 2 : lead >= 0xE0 && lead < 0xF0 ? 3 : 4;
  if (lead < 0xC2 || lead > 0xF4 || length < size) return UTF8PROC_ERROR_INVALIDUTF8;
  utf8proc_int32_t value = lead & (0x7F >> size);
  for (int i = 1; i < size; ++i) {
    if (!continues(text[i])) return UTF8PROC_ERROR_INVALIDUTF8;
    value = value << 6 | (text[i] & 0x3F);
  }
  constexpr utf8proc_int32_t kLeast[] = {0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = value >= 0xD800 && value < 0xE000;
  if (value < kLeast[size] || value >= 0x110000 || surrogate) return UTF8PROC_ERROR_INVALIDUTF8;
  *code = value;
  return size;
}
}
