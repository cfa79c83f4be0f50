#include "inkturn/grades/uniform_mark.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cstdint>
#include <string>

namespace inkturn {
namespace {

std::string mark_text(Marks marks) {
    return std::to_string(marks.count());
}

void check_uniform(const BoundarySet& set, const std::vector<Marks>& uniform,
                   std::optional<Marks> uniform_total) {
    if (uniform.size() != set.grades.size())
        throw Error("boundary set '" + set.name + "' has " + std::to_string(set.grades.size()) +
                    " grades, but there are " + std::to_string(uniform.size()) +
                    " uniform marks: give one per grade, from the top down");
    for (std::size_t i = 0; i < uniform.size(); ++i) {
        const std::string grade = "grade " + set.grades[i].grade + ", uniform mark " + mark_text(uniform[i]);
        if (uniform[i] > max_set_marks)
            throw Error(grade + ": give a mark from 0 to " + mark_text(max_set_marks));
        if (i > 0 && uniform[i] >= uniform[i - 1])
            throw Error(grade + " is not below " + mark_text(uniform[i - 1]) +
                        ": give the uniform marks from the top down");
    }
    if (uniform_total && set.grades.front().mark == set.total)
        throw Error("grade " + set.grades.front().grade + " at " + mark_text(set.grades.front().mark) +
                    " is the whole total, so its uniform mark is the maximum: leave the maximum out");
    if (uniform_total && (*uniform_total <= uniform.front() || *uniform_total > max_set_marks))
        throw Error("uniform maximum " + mark_text(*uniform_total) + ": give one from " +
                    mark_text(uniform.front() + Marks(1)) + " to " + mark_text(max_set_marks));
}

/// Between two points of which `above` has more raw marks, a half rounded up.
Marks interpolated(const ScalePoint& below, const ScalePoint& above, Marks raw) {
    const std::int64_t run = (above.raw - below.raw).count();
    const std::int64_t rise = (above.uniform - below.uniform).count();
    const std::int64_t part = (raw - below.raw).count();
    return below.uniform + Marks(static_cast<int>((2 * part * rise + run) / (2 * run)));
}

} // namespace

UniformScale uniform_scale(const BoundarySet& set, const std::vector<Marks>& uniform,
                           std::optional<Marks> uniform_total) {
    check_uniform(set, uniform, uniform_total);
    UniformScale scale;
    if (set.grades.back().mark > Marks(0))
        scale.push_back({Marks(0), Marks(0)});
    for (std::size_t i = uniform.size(); i-- > 0;)
        scale.push_back({set.grades[i].mark, uniform[i]});
    if (uniform_total && set.cap && *set.cap < set.total)
        scale.push_back({*set.cap, *uniform_total});
    if (uniform_total)
        scale.push_back({set.total, *uniform_total});
    return scale;
}

Marks scaled(const UniformScale& scale, Marks raw) {
    if (scale.empty())
        throw Error("a scale needs at least one point", Error::Kind::misused);
    if (raw < scale.front().raw || raw > scale.back().raw)
        throw Error("mark " + mark_text(raw) + " is not on the scale, which runs from " +
                    mark_text(scale.front().raw) + " to " + mark_text(scale.back().raw) +
                    ": check the mark; above the top grade the scale needs the uniform maximum");
    const auto above = std::find_if(scale.begin() + 1, scale.end(),
                                    [raw](const ScalePoint& point) { return point.raw >= raw; });
    return above == scale.end() ? scale.back().uniform : interpolated(*(above - 1), *above, raw);
}

std::optional<Marks> raw_for(const UniformScale& scale, Marks uniform) {
    if (scale.empty() || scale.back().uniform < uniform)
        return std::nullopt;
    int low = scale.front().raw.count();
    int high = scale.back().raw.count();
    while (low < high) {
        const int middle = low + (high - low) / 2;
        if (scaled(scale, Marks(middle)) >= uniform)
            high = middle;
        else
            low = middle + 1;
    }
    return Marks(low);
}

} // namespace inkturn
