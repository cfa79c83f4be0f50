#pragma once

#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What a mark is given for: a method, the accuracy that rests on it, or a result that stands alone.
enum class CodeKind : std::uint8_t { method, accuracy, independent, other };

/// One code of a mark scheme: letters, its marks, then perhaps letters.
struct MarkCode {
    std::string before; ///< `dM` of dM1
    Marks marks;
    std::string after; ///< `ft` of A1ft
    CodeKind kind;     ///< by the last letter before the marks, M, A or B in either case
};

/// The codes of a part (`M1 A1 B2`), blanks between them. Throws an Error that names the first that isn't a
/// code.
std::vector<MarkCode> parse_codes(std::string_view codes);

/// What the codes add up to (`M1 A1 B2` is 4). Throws as parse_codes() does.
Marks marks_of_codes(std::string_view codes);

/// The phases in which marking can begin.
enum class Phase : std::uint8_t { in_time, overtime };

/// Whether marks are typed as codes rather than as numbers: they begin with a letter and aren't just a
/// reason or `not-set`.
bool is_coded(std::string_view typed);

/// Reads marks typed as codes, `M1 A0 B0 + B1:slip`: every code of the part, in the mark scheme's order, with
/// what it earned in the phase `first`; after each + only the codes that gained marks in the next phase, with
/// what they gained; then perhaps a reason. A code after a + is the next one with its letters that has marks
/// to gain; `A0` skips one. Letters are as in the scheme or lower case; blanks, and letters after the marks,
/// may be left out. If a code worth several marks earned some, the first ones count as earned. Throws an
/// Error that names the part and the code.
PartMarks marks_from_codes(std::string_view typed, const Part& part, Phase first);

/// Throws Error where the marks say by code what was earned, but the part has no codes.
void check_by_code(const PartMarks& marks, const Part& part);

/// The part's codes with the marks that each earned unaided: `M1 A0ft B1`.
std::string codes_text(const Part& part, std::uint32_t by_code);

/// The accuracy codes that earned marks though the nearest method code before them earned none, as the scheme
/// writes them. One that follows through (ft) stands without its method.
std::vector<std::string> accuracy_without_method(const Part& part, std::uint32_t by_code);

/// Unaided marks lost on a part, by kind of code.
struct LostByCode {
    Marks method;
    Marks accuracy;
    Marks independent;
    Marks other;
    Marks accuracy_after_method; ///< of accuracy: the nearest method code before it was earned in full
};

/// Nothing where it can't be known: the part has no codes, or they are of several kinds, some marks were
/// earned and some lost, and by_code isn't known.
std::optional<LostByCode> lost_by_code(const Part& part, const PartMarks& marks);

} // namespace inkturn
