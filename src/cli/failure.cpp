#include "cli/failure.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <new>
#include <system_error>

#include "formats/text/names.h"
#include "geometry/plane/assert.h"
#include "leeway/bracket.h"
#include "leeway/fit.h"
#include "leeway/limits.h"
#include "leeway/walk.h"
#include "leeway/write_true_size.h"

#include "formats/typed/typed_values.h"

namespace leeway {

Failure failure_of(const std::exception_ptr& thrown) {
  LEEWAY_ASSERT(thrown);
  try {
    std::rethrow_exception(thrown);
  } catch (const OptionFault& fault) {
    return {kUnusable, fault.what()};
  } catch (const OutputFault& fault) {
    return {kUnusable, fault.what()};
  } catch (const FitRefused& fault) {
    return {kUnusable, fault.what()};
  } catch (const BracketRefused& fault) {
    return {kUnusable, fault.what()};
  } catch (const WalkRefused& fault) {
    return {kUnusable, fault.what()};
  } catch (const PaperRefused& fault) {
    return {kUnusable, fault.what()};
  } catch (const SetupTooDetailed& fault) {
    return {kUnusable, fmt::format("the setup asks for too much detail: {}", fault.what())};
  } catch (const std::bad_alloc&) {
    return {kOurFault, "the memory of this machine is not enough for this setup"};
  } catch (const std::exception& fault) {
    return {kOurFault, fmt::format("this is a fault of the program, not of your input: {}; please "
                                   "report it together with the setup",
                                   fault.what())};
  } catch (...) {
    return {kOurFault,
            "this is a fault of the program, not of your input; please report it "
            "together with the setup"};
  }
}

std::string system_words(int error) {
  switch (error) {
    case ENOENT:
      return "there is no such file or folder";
    case EACCES:
    case EPERM:
      return "access is not allowed";
    case EISDIR:
      return "it is a folder";
    case ENOTDIR:
      return "a part of the path is not a folder";
    case ENOSPC:
      return "no space is left";
    case EDQUOT:
      return "the quota is used up";
    case EFBIG:
      return "the file would be larger than is allowed";
    case EROFS:
      return "the file system is read-only";
    case ENAMETOOLONG:
      return "the name is too long";
    case ELOOP:
      return "its links lead round in a circle";
    case EBADF:
      return "it is closed";
    default:
      return std::generic_category().message(error);
  }
}

void write_error_line(const std::string& line) {
  const std::string text = line + "\n";
  for (std::size_t at = 0; at < text.size();) {
    const ssize_t written = ::write(STDERR_FILENO, text.data() + at, text.size() - at);
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return;
    at += static_cast<std::size_t>(written);
  }
}

void complain(const std::string& message) { write_error_line("leeway: " + one_line(message)); }

void refuse_typed(const char* command, const char* option, const char* takes,
                  const std::string& typed) {
  throw OptionFault(fmt::format("the option \"{}\" takes {}, not \"{}\"{} (see `leeway {} --help`)",
                                option, takes, typed, number_hint(typed), command));
}

}  // namespace leeway
