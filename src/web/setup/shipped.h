#pragma once
// The examples and profiles of this repository, compiled in.

#include <span>
#include <string_view>

namespace leeway {

struct ShippedFile {
  std::string_view path;  // from the top folder: "examples/godwit-all-well.json"
  std::string_view text;
};
std::span<const ShippedFile> shipped_files();

// Null where there is none.
const ShippedFile* shipped_file(std::string_view path);

}  // namespace leeway
