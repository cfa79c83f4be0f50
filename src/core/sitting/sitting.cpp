#include "inkturn/sitting/sitting.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/clock/clock_line.hpp"
#include "inkturn/paper/codes.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Where the entry's part stands among `positions`; `otherwise` says why it may not.
std::size_t place_of(const Paper& paper, const std::vector<std::size_t>& positions, const Entry& entry,
                     const char* otherwise) {
    const auto part = paper.find_part(entry.part);
    if (!part)
        throw Error("paper " + paper.id() + " has no part " + entry.part, Error::Kind::not_found,
                    Error::Remedy::show_paper, paper.id());
    const auto found = std::find(positions.begin(), positions.end(), *part);
    if (found == positions.end())
        throw Error("part " + entry.part + otherwise);
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

bool is_tried(const Question& question, const std::vector<PartMarks>& parts) {
    return std::any_of(question.parts.begin(), question.parts.end(),
                       [&](std::size_t part) { return parts[part].attempted(); });
}

bool is_question_set(const Question& question, const std::vector<PartMarks>& parts) {
    return parts[question.parts.front()].is_set();
}

MarksByPhase earned_in(const Question& question, const std::vector<PartMarks>& parts) {
    MarksByPhase sum;
    for (const std::size_t part : question.parts) {
        sum.in_time += parts[part].in_time();
        sum.overtime += parts[part].overtime();
    }
    return sum;
}

void choose(const ChoiceOfQuestions& choice, std::vector<PartMarks>& parts) {
    struct Tried {
        const Question* question;
        MarksByPhase earned;
        Marks unaided() const { return earned.in_time + earned.overtime; }
    };
    std::vector<Tried> tried;
    for (const Question& question : choice.questions) {
        for (const std::size_t part : question.parts)
            if (parts[part].is_set())
                parts[part].count_as_chosen(false);
        if (is_tried(question, parts))
            tried.push_back({&question, earned_in(question, parts)});
    }
    std::stable_sort(tried.begin(), tried.end(), [](const Tried& a, const Tried& b) {
        return a.unaided() != b.unaided() ? a.unaided() > b.unaided() : a.earned.in_time > b.earned.in_time;
    });
    tried.resize(std::min(tried.size(), static_cast<std::size_t>(choice.choice.count)));
    for (const Tried& chosen : tried)
        for (const std::size_t part : chosen.question->parts)
            if (parts[part].is_set())
                parts[part].count_as_chosen(true);
}

/// How many questions of the choice can count of those set.
int most_counted(const ChoiceOfQuestions& choice, const std::vector<PartMarks>& parts) {
    const auto set =
        std::count_if(choice.questions.begin(), choice.questions.end(),
                      [&](const Question& question) { return is_question_set(question, parts); });
    return std::min(choice.choice.count, static_cast<int>(set));
}

int counted(const ChoiceOfQuestions& choice, const std::vector<PartMarks>& parts) {
    return static_cast<int>(
        std::count_if(choice.questions.begin(), choice.questions.end(),
                      [&](const Question& question) { return parts[question.parts.front()].counts(); }));
}

/// Which parts may go without an entry: those of a choice, by question, that no entry names.
class LeftOut {
  public:
    LeftOut(const Paper& paper, const std::vector<std::size_t>& positions, const std::vector<Entry>& entries)
        : may_(paper.parts().size()) {
        const auto is_set = [&](const Question& question) {
            return std::find(positions.begin(), positions.end(), question.parts.front()) != positions.end();
        };
        std::vector<bool> named(paper.parts().size());
        for (const Entry& entry : entries)
            if (const auto part = paper.find_part(entry.part))
                named[*part] = true;
        const auto is_named = [&](const Question& question) {
            return std::any_of(question.parts.begin(), question.parts.end(),
                               [&](std::size_t part) { return named[part]; });
        };
        for (const ChoiceOfQuestions& choice : paper.choices()) {
            if (std::count_if(choice.questions.begin(), choice.questions.end(), is_set) <=
                choice.choice.count)
                continue; // there is nothing to choose
            const auto count = std::count_if(choice.questions.begin(), choice.questions.end(), is_named);
            for (const Question& question : choice.questions)
                for (const std::size_t part : question.parts)
                    if (!is_named(question))
                        may_[part] = count >= choice.choice.count ? May::always : May::by_rest;
        }
    }

    /// Whether the part is not attempted, as far as the rest says so.
    bool holds(std::size_t part, std::optional<Rest> rest) const {
        return may_[part] == May::always || (may_[part] == May::by_rest && rest == Rest::full);
    }

  private:
    enum class May : std::uint8_t { not_at_all, by_rest, always };
    std::vector<May> may_;
};

std::string list_text(const std::vector<std::string>& labels) {
    std::string text;
    for (const std::string& label : labels)
        text += (text.empty() ? "" : ", ") + label;
    return text;
}

/// The marks that entries give to the parts at `positions`; nothing where no entry names one.
std::vector<std::optional<PartMarks>> marks_named(const Paper& paper,
                                                  const std::vector<std::size_t>& positions,
                                                  const std::vector<Entry>& entries, const char* otherwise) {
    std::vector<std::optional<PartMarks>> found(positions.size());
    for (const Entry& entry : entries) {
        const std::size_t place = place_of(paper, positions, entry, otherwise);
        if (found[place])
            throw Error("part " + entry.part + " is named twice");
        found[place] = marks_of(paper.part(positions[place]), entry);
    }
    return found;
}

/// Those found, with the rest filled in; `left_out` tells which parts may go without marks.
template <typename LeftOutHere>
std::vector<PartMarks> filled_in(const Paper& paper, const std::vector<std::size_t>& positions,
                                 const std::vector<std::optional<PartMarks>>& found, std::optional<Rest> rest,
                                 const LeftOutHere& left_out) {
    std::vector<PartMarks> marks;
    std::vector<std::string> without;
    for (std::size_t place = 0; place < positions.size(); ++place) {
        const Part& part = paper.part(positions[place]);
        if (found[place])
            marks.push_back(*found[place]);
        else if (left_out(positions[place]) || rest == Rest::none)
            marks.emplace_back();
        else if (rest == Rest::full)
            marks.push_back(full_marks(part.max));
        else
            without.push_back(part.label);
    }
    if (!without.empty())
        throw Error("no marks for " + list_text(without), Error::Kind::invalid,
                    Error::Remedy::give_all_marks);
    return marks;
}

} // namespace

void count_chosen(const Paper& paper, std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    for (const ChoiceOfQuestions& choice : paper.choices())
        choose(choice, parts);
}

std::vector<std::size_t> parts_set(const Paper& paper, std::string_view only) {
    try {
        std::vector<std::size_t> positions = positions_named(paper, only);
        std::vector<PartMarks> parts(paper.parts().size(), PartMarks::not_set());
        for (const std::size_t position : positions)
            parts[position] = PartMarks();
        check_set(paper, parts);
        return positions;
    } catch (const Error& error) {
        throw error.within("'" + std::string(only) + "': ");
    }
}

std::vector<bool> counting(const std::vector<PartMarks>& parts) {
    std::vector<bool> counts;
    counts.reserve(parts.size());
    for (const PartMarks& marks : parts)
        counts.push_back(marks.counts());
    return counts;
}

Marks marks_left_open(const Paper& paper, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    Marks open;
    for (const ChoiceOfQuestions& choice : paper.choices())
        for (int i = counted(choice, parts); i < most_counted(choice, parts); ++i)
            open += choice.questions.front().marks;
    return open;
}

bool is_whole(const Paper& paper, const std::vector<PartMarks>& parts) {
    return totals(paper, parts).max == paper.marks();
}

Totals totals(const Paper& paper, const std::vector<PartMarks>& parts) {
    Totals sum;
    sum.max = marks_left_open(paper, parts);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const PartMarks& marks = parts[i];
        if (!marks.counts())
            continue;
        sum.max += paper.parts()[i].max;
        sum.in_time += marks.in_time();
        sum.overtime += marks.overtime();
        sum.corrected += marks.corrected();
    }
    return sum;
}

Seconds allowance(const Paper& paper, const Sitting& sitting) {
    return allowance(paper, totals(paper, sitting.parts).max, sitting.extra_time);
}

Marks LostByReason::all() const {
    Marks sum = unstated + left_open;
    for (const Marks lost : stated)
        sum += lost;
    return sum;
}

LostByReason lost_by_reason(const Paper& paper, const std::vector<PartMarks>& parts) {
    LostByReason lost;
    lost.left_open = marks_left_open(paper, parts);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Marks missed = marks_lost(paper.parts()[i], parts[i]);
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
        if (parts[i].counts() && parts[i].tried_in_time())
            sum += paper.parts()[i].max;
    return sum;
}

Marks missed_marks(const Paper& paper, const Question& question, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    Marks sum;
    for (const std::size_t position : question.parts) {
        const Part& part = paper.part(position); // before the marks are looked at: it throws
        if (is_missed(paper, part, parts[position]))
            sum += marks_lost(part, parts[position]);
    }
    return sum;
}

std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<std::size_t>& positions,
                                          const std::vector<Entry>& entries, std::optional<Rest> rest) {
    const auto found =
        marks_named(paper, positions, entries, " does not belong to the question that is retried");
    return filled_in(paper, positions, found, rest, [](std::size_t) { return false; });
}

std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<Entry>& entries,
                                          std::optional<Rest> rest,
                                          const std::optional<std::vector<std::size_t>>& set) {
    const std::vector<std::size_t> positions = set.value_or(all_positions(paper));
    const auto found =
        marks_named(paper, positions, entries,
                    " is not among the parts that were set: name it there too, or leave it out");
    const LeftOut left_out(paper, positions, entries);
    const std::vector<PartMarks> of_set = filled_in(
        paper, positions, found, rest, [&](std::size_t part) { return left_out.holds(part, rest); });
    std::vector<PartMarks> marks(paper.parts().size(), PartMarks::not_set());
    for (std::size_t place = 0; place < positions.size(); ++place)
        marks[positions[place]] = of_set[place];
    check_set(paper, marks);
    count_chosen(paper, marks);
    return marks;
}

std::vector<PartMarks> amended(const Paper& paper, std::vector<PartMarks> parts,
                               const std::vector<Entry>& entries) {
    check_covers(paper, parts);
    std::vector<std::size_t> named;
    for (const Entry& entry : entries) {
        const std::size_t part = place_of(paper, all_positions(paper), entry, "");
        if (std::find(named.begin(), named.end(), part) == named.end())
            named.push_back(part);
    }
    const std::vector<PartMarks> marks = marks_from_entries(paper, named, entries, std::nullopt);
    for (std::size_t i = 0; i < named.size(); ++i)
        parts[named[i]] = marks[i];
    check_set(paper, parts);
    count_chosen(paper, parts);
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
    for (const Part& part : paper.parts()) {
        const auto before = was.notes.find(part.label);
        const auto after = is.notes.find(part.label);
        if (after == is.notes.end() && before != was.notes.end())
            lines.push_back("note on " + part.label + ": removed");
        else if (after != is.notes.end() && (before == was.notes.end() || before->second != after->second))
            lines.push_back("note on " + part.label + ": " + after->second);
    }
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

void check_set(const Paper& paper, const std::vector<PartMarks>& parts) {
    if (std::none_of(parts.begin(), parts.end(), [](const PartMarks& marks) { return marks.is_set(); }))
        throw Error("paper " + paper.id() + ": a sitting needs at least one part that was set");
    for (const ChoiceOfQuestions& choice : paper.choices())
        for (const Question& question : choice.questions)
            for (const std::size_t part : question.parts)
                if (parts[part].is_set() != is_question_set(question, parts))
                    throw Error("question " + question.label + " belongs to choice " + choice.choice.group +
                                ": it is set whole or not at all");
}

void check_fits(const Paper& paper, const Sitting& sitting) {
    check_day(sitting.day);
    const std::vector<std::size_t> positions = all_positions(paper);
    check_fits(paper, positions, sitting.parts);
    check_set(paper, sitting.parts);
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
    std::vector<PartMarks> marks = parse_line(paper, all_positions(paper), line);
    count_chosen(paper, marks);
    return marks;
}

} // namespace inkturn
