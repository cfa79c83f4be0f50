#include "inkturn/paper/amendment.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>

namespace inkturn {
namespace {

template <typename Value>
void amend(Value& value, const std::optional<Value>& to) {
    if (to)
        value = *to;
}

Part& part_to_amend(const Paper& paper, std::vector<Part>& parts, const std::string& label) {
    const auto position = paper.find_part(label);
    if (!position)
        throw Error("paper " + paper.id() + " has no part " + label, Error::Kind::not_found,
                    Error::Remedy::show_paper, paper.id());
    return parts[*position];
}

void add_difference(std::vector<std::string>& lines, const std::string& what, const std::string& was,
                    const std::string& is) {
    const auto stated = [](const std::string& text) { return text.empty() ? "none" : text; };
    if (was != is)
        lines.push_back(what + ": " + stated(was) + " -> " + stated(is));
}

std::string duration_text(const std::optional<Seconds>& duration) {
    return duration ? length_text(*duration) : "1.2 minutes a mark";
}

/// For each mark of the part, the position of the code that it is of.
std::vector<std::size_t> code_of_each_mark(const Part& part) {
    std::vector<std::size_t> positions;
    const std::vector<MarkCode> codes = parse_codes(part.codes);
    for (std::size_t i = 0; i < codes.size(); ++i)
        positions.insert(positions.end(), static_cast<std::size_t>(codes[i].marks.count()), i);
    return positions;
}

/// Whether the marks that both parts have are of codes at the same places.
bool has_codes_in_place(const Part& was, const Part& is) {
    const std::vector<std::size_t> before = code_of_each_mark(was);
    const std::vector<std::size_t> after = code_of_each_mark(is);
    return std::equal(before.begin(),
                      before.begin() + static_cast<std::ptrdiff_t>(std::min(before.size(), after.size())),
                      after.begin());
}

} // namespace

PartAmendment parse_part_amendment(std::string_view text) {
    const std::size_t colon = text.find(':');
    const std::size_t equals = text.find('=');
    const auto wrong = [&] {
        return Error(
            "'" + std::string(text) +
            "': write PART:topic=TOPIC, PART:codes='M1 A1' or PART:marks=N, such as 3b:topic=vectors");
    };
    if (colon == std::string_view::npos || equals == std::string_view::npos || equals < colon)
        throw wrong();
    PartAmendment amendment{parse_label(text.substr(0, colon))};
    const std::string_view what = text.substr(colon + 1, equals - colon - 1);
    const std::string value(text.substr(equals + 1));
    if (what == "topic")
        amendment.topic = value;
    else if (what == "codes")
        amendment.codes = value;
    else if (what == "marks")
        amendment.max = Marks(
            parse_whole_number(value, 1, max_part_marks.count(), "part " + amendment.label + ", marks"));
    else
        throw wrong();
    return amendment;
}

Paper amended(const Paper& paper, const PaperAmendment& amendment) {
    PaperHead head = paper.head();
    amend(head.title, amendment.title);
    amend(head.subject, amendment.subject);
    amend(head.component, amendment.component);
    if (amendment.duration)
        head.duration = amendment.duration;
    std::vector<Part> parts = paper.parts();
    for (const PartAmendment& one : amendment.parts) {
        Part& part = part_to_amend(paper, parts, one.label);
        amend(part.topic, one.topic);
        amend(part.codes, one.codes);
        amend(part.max, one.max);
    }
    return Paper(std::move(head), std::move(parts));
}

std::vector<std::string> differences(const Paper& was, const Paper& is) {
    std::vector<std::string> lines;
    add_difference(lines, "title", was.title(), is.title());
    add_difference(lines, "subject", was.subject(), is.subject());
    add_difference(lines, "component", was.component(), is.component());
    add_difference(lines, "time", duration_text(was.duration()), duration_text(is.duration()));
    for (std::size_t i = 0; i < was.parts().size(); ++i) {
        const Part& before = was.parts()[i];
        const Part& after = is.part(i);
        add_difference(lines, before.label + " topic", before.topic, after.topic);
        add_difference(lines, before.label + " codes", before.codes, after.codes);
        add_difference(lines, before.label + " marks", std::to_string(before.max.count()),
                       std::to_string(after.max.count()));
    }
    return lines;
}

bool still_fits(const PartMarks& marks, const Part& was, const Part& is) {
    try {
        marks.check_within(is.max);
    } catch (const Error&) {
        return false;
    }
    return !marks.by_code() || (!is.codes.empty() && has_codes_in_place(was, is));
}

} // namespace inkturn
