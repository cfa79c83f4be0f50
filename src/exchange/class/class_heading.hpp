#pragma once

#include "inkturn/paper/marks.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What a column of a class's file holds, by its heading alone.
enum class ColumnKind : std::uint8_t {
    candidate, ///< codes
    person,    ///< names and codes, which are the candidates' where there is no other column for them
    date,
    only,
    extra_time,
    total,
    part,
    subtotal, ///< of a question or a section
    remark,   ///< a percentage, a grade, a comment: of no use here
    blank,    ///< no heading
    unknown
};

struct ColumnHeading {
    ColumnKind kind = ColumnKind::unknown;
    std::string label{};      ///< of a part or the question of a subtotal; a section's letter
    std::optional<int> max{}; ///< such as `1 (4)` states
    std::string paper{};      ///< the id in front of it, as `pure-1: 2a`; empty: none
};

/// Reads a heading in any of the usual forms: `Question 3`, `2 b)`, `4.b`, `1 (4)`, `1/4`, `Total /25`.
ColumnHeading read_heading(std::string_view written);

/// Whether a column of this heading holds codes of candidates rather than names.
bool is_heading_of_codes(std::string_view written);

/// What a column of this heading says about classes.
enum class ClassNaming : std::uint8_t { none, classes, groups };
ClassNaming class_naming(std::string_view written);

/// Whether a column of this heading holds names.
bool is_heading_of_names(std::string_view written);

/// Whether a column of this heading tells candidates apart, as a surname alone does not.
bool names_candidates(std::string_view written);

/// Of these headings the one of the candidates' codes; else of the candidates, whatever they are called.
std::optional<std::size_t> column_of_candidates(const std::vector<std::string_view>& headings);

/// Whether these cells can be the header of a class's file: one names the candidates, and there is another.
bool is_class_header(const std::vector<std::string_view>& cells);
/// Whether they could be one but for a column that tells candidates apart.
bool is_header_of_names_alone(const std::vector<std::string_view>& cells);

/// The sub-parts that a second header row gives, `b` or `(b)(ii)`; nothing where the text is none.
std::optional<std::string> read_sub_part_heading(std::string_view written);

/// An id of a paper in any case, with blanks for hyphens; nothing where it can't be one.
std::optional<std::string> read_paper_heading(std::string_view written);

/// Whether the row that starts with this names maxima: max, maximum, out of.
bool names_maxima(std::string_view text);

/// Whether the row that starts with this is no candidate's: mean, highest, total, notes.
bool names_no_candidate(std::string_view text);

/// Whether the text is too long for a code: of three words and more, or with a colon at its end.
bool is_sentence(std::string_view text);

/// Whether a row that is shorter than the header is a note below the table, with no marks but a mean's or the
/// like.
bool is_note(const std::vector<std::string_view>& cells);

/// Whether the text says who marked: `Marked by JT`, `Checked by`.
bool names_who_marked(std::string_view text);

} // namespace inkturn
