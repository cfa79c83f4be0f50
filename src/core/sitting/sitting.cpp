#include "inkturn/sitting/sitting.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/clock/clock_line.hpp"
#include "inkturn/paper/codes.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Where the entry's part stands among `positions`.
std::size_t place_of(const Paper& paper, const std::vector<std::size_t>& positions, const Entry& entry) {
    const auto part = paper.find_part(entry.part);
    if (!part)
        throw Error("paper " + paper.id() + " has no part " + entry.part, Error::Kind::not_found,
                    Error::Remedy::show_paper, paper.id());
    const auto found = std::find(positions.begin(), positions.end(), *part);
    if (found == positions.end())
        throw Error("part " + entry.part + " does not belong to the question that is retried");
    return static_cast<std::size_t>(found - positions.begin());
}

PartMarks marks_of(const Part& part, const Entry& entry) {
    if (entry.max && *entry.max != part.max)
        throw Error("part " + part.label + " has " + std::to_string(part.max.count()) +
                    " marks on file, not " + std::to_string(entry.max->count()));
    if (is_coded(entry.marks))
        return marks_from_codes(entry.marks, part, Phase::in_time);
    try {
        const PartMarks marks = parse_part_marks(entry.marks, part.max);
        check_by_code(marks, part);
        return marks;
    } catch (const Error& error) {
        throw error.within("part " + part.label + ", ");
    }
}

void check_count(const Paper& paper, std::size_t marks, std::size_t parts) {
    if (marks != parts)
        throw Error("paper " + paper.id() + ": marks for " + std::to_string(marks) + " of " +
                    std::to_string(parts) + " parts");
}

std::string list_text(const std::vector<std::string>& labels) {
    std::string text;
    for (const std::string& label : labels)
        text += (text.empty() ? "" : ", ") + label;
    return text;
}

} // namespace

Totals totals(const Paper& paper, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    Totals sum;
    sum.max = paper.marks();
    for (const PartMarks& marks : parts) {
        sum.in_time += marks.in_time();
        sum.overtime += marks.overtime();
        sum.corrected += marks.corrected();
    }
    return sum;
}

Marks LostByReason::all() const {
    Marks sum = unstated;
    for (const Marks lost : stated)
        sum += lost;
    return sum;
}

LostByReason lost_by_reason(const Paper& paper, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    LostByReason lost;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Marks missed = paper.parts()[i].max - parts[i].unaided();
        if (const auto reason = parts[i].reason())
            lost.stated[static_cast<std::size_t>(*reason)] += missed;
        else
            lost.unstated += missed;
    }
    return lost;
}

Marks reach_of(const Paper& paper, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    Marks sum;
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (parts[i].tried_in_time())
            sum += paper.parts()[i].max;
    return sum;
}

Marks missed_marks(const Paper& paper, const Question& question, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    Marks sum;
    for (const std::size_t position : question.parts) {
        const Part& part = paper.part(position); // before the marks are looked at: it throws
        if (is_missed(paper, part, parts[position]))
            sum += part.max - parts[position].unaided();
    }
    return sum;
}

std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<std::size_t>& positions,
                                          const std::vector<Entry>& entries, std::optional<Rest> rest) {
    std::vector<std::optional<PartMarks>> found(positions.size());
    for (const Entry& entry : entries) {
        const std::size_t place = place_of(paper, positions, entry);
        if (found[place])
            throw Error("part " + entry.part + " is named twice");
        found[place] = marks_of(paper.part(positions[place]), entry);
    }

    std::vector<PartMarks> marks;
    std::vector<std::string> without;
    for (std::size_t place = 0; place < positions.size(); ++place) {
        const Part& part = paper.part(positions[place]);
        if (!found[place] && !rest)
            without.push_back(part.label);
        marks.push_back(found[place]         ? *found[place]
                        : rest == Rest::full ? full_marks(part.max)
                                             : PartMarks{});
    }
    if (!without.empty())
        throw Error("no marks for " + list_text(without), Error::Kind::invalid,
                    Error::Remedy::give_all_marks);
    return marks;
}

std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<Entry>& entries,
                                          std::optional<Rest> rest) {
    return marks_from_entries(paper, all_positions(paper), entries, rest);
}

std::vector<PartMarks> amended(const Paper& paper, std::vector<PartMarks> parts,
                               const std::vector<Entry>& entries) {
    check_covers(paper, parts);
    std::vector<std::size_t> named;
    for (const Entry& entry : entries) {
        const std::size_t part = place_of(paper, all_positions(paper), entry);
        if (std::find(named.begin(), named.end(), part) == named.end())
            named.push_back(part);
    }
    const std::vector<PartMarks> marks = marks_from_entries(paper, named, entries, std::nullopt);
    for (std::size_t i = 0; i < named.size(); ++i)
        parts[named[i]] = marks[i];
    return parts;
}

std::vector<std::string> differences(const Paper& paper, const Sitting& was, const Sitting& is) {
    std::vector<std::string> lines;
    if (was.day != is.day)
        lines.push_back("date: " + day_text(was.day) + " -> " + day_text(is.day));
    if (was.extra_time.percent() != is.extra_time.percent())
        lines.push_back("extra time: " + std::to_string(was.extra_time.percent()) + "% -> " +
                        std::to_string(is.extra_time.percent()) + "%");
    for (std::size_t i = 0; i < paper.parts().size(); ++i)
        if (was.parts.at(i) != is.parts.at(i))
            lines.push_back(paper.part(i).label + " " + to_text(was.parts[i]) + " -> " +
                            to_text(is.parts[i]));
    return lines;
}

Paper paper_from_entries(PaperHead head, const std::vector<Entry>& entries) {
    if (entries.empty())
        throw Error("paper " + head.id + ": name each part with its marks and maximum, such as 1=3/5");
    std::vector<Part> parts;
    for (const Entry& entry : entries) {
        const bool named = std::any_of(parts.begin(), parts.end(),
                                       [&](const Part& part) { return part.label == entry.part; });
        if (named)
            throw Error("part " + entry.part + " is named twice");
        if (!entry.max)
            throw Error("part " + entry.part + ": a new paper needs every part's maximum, such as " +
                        entry.part + "=" + entry.marks.substr(0, entry.marks.find(':')) + "/6");
        parts.push_back({entry.part, *entry.max, "", ""});
    }
    return Paper(std::move(head), std::move(parts));
}

void check_has_happened(Day day, Day today, const std::string& what) {
    if (day > today)
        throw Error(what + " on " + iso(day) + " is in the future (today is " + iso(today) +
                        "): check the date",
                    Error::Kind::conflict);
}

void check_covers(const Paper& paper, const std::vector<PartMarks>& parts) {
    check_count(paper, parts.size(), paper.parts().size());
}

void check_fits(const PartMarks& marks, const Part& part) {
    try {
        marks.check_within(part.max);
        if (marks.by_code() && part.codes.empty())
            throw Error("the part has no codes, so which of its marks were earned can't be told");
    } catch (const Error& error) {
        throw error.within("part " + part.label + ", marks '" + to_text(marks) + "': ");
    }
}

void check_fits(const Paper& paper, const std::vector<std::size_t>& positions,
                const std::vector<PartMarks>& marks) {
    check_count(paper, marks.size(), positions.size());
    for (std::size_t i = 0; i < positions.size(); ++i)
        check_fits(marks[i], paper.part(positions[i]));
}

void check_fits(const Paper& paper, const Sitting& sitting) {
    check_day(sitting.day);
    const std::vector<std::size_t> positions = all_positions(paper);
    check_fits(paper, positions, sitting.parts);
    check_events(paper, positions, sitting.clock);
    check_fits(paper, positions, sitting.notes);
}

std::string to_line(const std::vector<PartMarks>& parts) {
    std::string line;
    for (const PartMarks& marks : parts) {
        if (!line.empty())
            line += ' ';
        append_text(line, marks);
    }
    return line;
}

std::vector<PartMarks> parse_line(const Paper& paper, const std::vector<std::size_t>& positions,
                                  std::string_view line) {
    std::vector<PartMarks> marks;
    marks.reserve(positions.size());
    for (const std::size_t position : positions) {
        if (line.empty())
            throw Error("fewer marks than parts");
        const std::size_t end = std::min(line.find(' '), line.size());
        marks.push_back(parse_part_marks(line.substr(0, end), paper.part(position).max));
        line.remove_prefix(std::min(end + 1, line.size()));
    }
    if (!line.empty())
        throw Error("more marks than parts");
    return marks;
}

std::vector<PartMarks> parse_line(const Paper& paper, std::string_view line) {
    return parse_line(paper, all_positions(paper), line);
}

} // namespace inkturn
