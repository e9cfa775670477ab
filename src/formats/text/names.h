#pragma once
// Names that come from users, made harmless for the place where they are shown. A name may hold
// control characters, terminal escapes, characters that turn the direction of reading, quotes,
// line breaks, markup, and bytes that are not UTF-8.

#include <cstddef>
#include <string>
#include <string_view>

namespace leeway {

// One line that moves no cursor: white space becomes a blank; control characters, characters that
// are invisible or turn the direction of reading, and bytes that are not UTF-8 become '?'.
std::string one_line(std::string_view name);

// The same for sentences. A name with letters that are read from right to left is isolated, so that
// it does not turn what stands around it.
std::string text_name(std::string_view name);

// The same, cut in the middle to 40 columns, for pictures.
std::string picture_name(std::string_view name);

// Between U+2068 and U+2069, if it holds what is read from right to left; else as it is. Both count
// no column. No name holds them itself: one_line replaces them.
std::string isolated(std::string text);

// Without the characters that isolate.
std::string without_isolates(std::string_view text);

// One line with everything escaped that Markdown, its tables or HTML would act on.
std::string markdown_name(std::string_view name);

// A field of text by RFC 4180. A field that a spreadsheet would take for a formula (it begins
// with = + - @) gets an apostrophe in front and quotes around.
std::string csv_text(std::string_view text);

// A word as a shell would take it back: as it is, or in quotes; on one line.
std::string shell_word(std::string_view word);

// How many columns of a terminal a text takes: wide characters count two, combining ones none.
std::size_t columns_of(std::string_view text);

// How much is shown of something that was found in a file.
inline constexpr std::size_t kShownColumns = 40;

// At most `columns` wide, with "..." at the end where something was cut.
std::string cut(std::string_view text, std::size_t columns);

// The same, cut in the middle, so that what tells names apart at either end stays.
std::string cut_middle(std::string_view text, std::size_t columns);

// A text of the user's for a message: on one line, in quotes, cut where it is long.
std::string in_quotes(std::string_view text);

}  // namespace leeway
