// Writes what the library utf8proc says of every character as a table, for builds that cannot link
// it: runs of characters that are alike in all that src/formats asks for.

#include <utf8proc.h>

#include <cstdio>
#include <map>
#include <tuple>

namespace {

using Kind = std::tuple<int, int, bool, int>;  // category, direction, ignorable, width

Kind kind_of(utf8proc_int32_t c) {
  const utf8proc_property_t& property = *utf8proc_get_property(c);
  return {property.category, property.bidi_class, property.ignorable != 0, utf8proc_charwidth(c)};
}

}  // namespace

int main() {
  std::map<Kind, int> kinds;
  std::puts("constexpr UnicodeRun kUnicodeRuns[] = {");
  int last = -1;
  for (utf8proc_int32_t c = 0; c < 0x110000; ++c) {
    const int kind = kinds.emplace(kind_of(c), static_cast<int>(kinds.size())).first->second;
    if (kind != last) std::printf("{%d,%d},\n", c, kind);
    last = kind;
  }
  std::puts("};\nconstexpr UnicodeKind kUnicodeKinds[] = {");
  std::map<int, Kind> by_number;
  for (const auto& [kind, number] : kinds) by_number[number] = kind;
  for (const auto& [number, kind] : by_number) {
    const auto& [category, direction, ignorable, width] = kind;
    std::printf("{%d,%d,%d,%d},\n", category, direction, ignorable ? 1 : 0, width);
  }
  std::puts("};");
  return std::ferror(stdout) != 0 || kinds.size() > 255 ? 1 : 0;
}
