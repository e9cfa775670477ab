#include "web/setup/shipped.h"

#include <shipped_files.inc>  // made by shipped.cmake: kShippedFiles

namespace leeway {

std::span<const ShippedFile> shipped_files() { return kShippedFiles; }

const ShippedFile* shipped_file(std::string_view path) {
  for (const ShippedFile& file : kShippedFiles) {
    if (file.path == path) return &file;
  }
  return nullptr;
}

}  // namespace leeway
