#pragma once

#include "inkturn/paper/paper.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What is to change of one part.
struct PartAmendment {
    std::string label; ///< short form
    std::optional<std::string> topic{};
    std::optional<std::string> codes{};
    std::optional<Marks> max{};
};

/// What is to change of a paper; what isn't stated stays.
struct PaperAmendment {
    std::optional<std::string> title{};
    std::optional<std::string> subject{};
    std::optional<Seconds> duration{};
    std::optional<std::string> component{};
    std::vector<PartAmendment> parts{};
};

/// Reads `3b:topic=vectors`, `3b:codes=M1 A1` or `3b:marks=4`; an empty topic or codes takes away what was
/// stated. Throws Error.
PartAmendment parse_part_amendment(std::string_view text);

/// The paper with the changes. Throws Error for a part that it doesn't have, and where the result is no
/// paper: codes, say, that don't add up to the marks.
Paper amended(const Paper& paper, const PaperAmendment& amendment);

/// What two papers with the same parts differ in, one line each: `3b topic: vectros -> vectors`.
std::vector<std::string> differences(const Paper& was, const Paper& is);

/// Whether marks that are those of a part can stay once the part is as amended: none is above its maximum, a
/// reason has marks that it is for, and what was earned by code was earned by the same code in its place.
bool still_fits(const PartMarks& marks, const Part& was, const Part& is);

} // namespace inkturn
