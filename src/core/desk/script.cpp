#include "inkturn/desk/script.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/clock/clock_line.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::string_view not_marked = "?";

std::vector<PartMarks> marks_of(const Script& script) {
    if (!script.is_marked())
        throw Error("the script of " + to_text(script.id) + " is not fully marked", Error::Kind::misused);
    std::vector<PartMarks> marks;
    for (const auto& part : script.marks)
        marks.push_back(*part);
    return marks;
}

/// Those that its paper and its id call for.
std::vector<std::size_t> positions_of(const Script& script) {
    const Paper& paper = *script.paper;
    if (!script.id.retry)
        return all_positions(paper);
    const RetryId& retry = *script.id.retry;
    const auto question = paper.find_question(retry.question);
    if (retry.sitting != script.id.sitting || retry.turn < 1 || !question)
        throw Error("the script of " + to_text(script.id) + " is not of a retry of paper " + paper.id());
    return paper.questions()[*question].parts;
}

/// Throws Error unless the script has its paper, and marks for the parts that this and its id name.
void check_covers(const Script& script) {
    if (!script.paper)
        throw Error("a script needs a paper", Error::Kind::misused);
    if (script.positions != positions_of(script))
        throw Error("a script must cover all parts of its paper, or of the question that is retried");
    if (script.marks.size() != script.positions.size())
        throw Error("paper " + script.paper->id() + ": marks for " + std::to_string(script.marks.size()) +
                    " of " + std::to_string(script.positions.size()) + " parts");
}

Clock played(Clock clock, const std::vector<ClockEvent>& events) {
    for (const ClockEvent& event : events)
        clock.take(event);
    return clock;
}

/// One of a paper, of the parts that are worked on.
Clock clock_for(const Paper& paper, const Sitting& sitting, const std::vector<bool>& is_worked) {
    return Clock(clock_parts(paper, is_worked, sitting.extra_time), totals(paper, sitting.parts).max,
                 allowance(paper, sitting));
}

/// Those of a retry, with the allowances that they have in the whole paper; what is not set has none.
std::vector<ClockPart> parts_of(const Script& script) {
    const std::vector<ClockPart> all = clock_parts(*script.paper, script.extra_time);
    std::vector<ClockPart> parts;
    for (std::size_t place = 0; place < script.positions.size(); ++place) {
        const ClockPart& part = all[script.positions[place]];
        parts.push_back(script.is_set(place) ? part : ClockPart{part.label, Marks(0), Seconds(0)});
    }
    return parts;
}

/// The script of a paper as a sitting, what is not marked being not attempted.
Sitting as_far_as_marked(const Script& script) {
    Sitting sitting{script.day, script.extra_time, {}, {}};
    for (const auto& marks : script.marks)
        sitting.parts.push_back(marks.value_or(PartMarks()));
    count_chosen(*script.paper, sitting.parts);
    return sitting;
}

/// Leaves out those not among `set`.
void leave_out_others(Script& script, const std::vector<std::size_t>& set) {
    for (std::size_t place = 0; place < script.positions.size(); ++place)
        if (!std::binary_search(set.begin(), set.end(), script.positions[place]))
            script.marks[place] = PartMarks::not_set();
}

} // namespace

ScriptId script_id(SittingId sitting) {
    return {sitting, std::nullopt};
}

ScriptId script_id(const RetryId& retry) {
    return {retry.sitting, retry};
}

std::string to_text(const ScriptId& id) {
    return id.retry ? to_text(*id.retry) : std::to_string(static_cast<std::int64_t>(id.sitting));
}

ScriptId parse_script_id(std::string_view text) {
    if (text.find('q') != std::string_view::npos)
        return script_id(parse_retry_id(text));
    return script_id(SittingId{parse_whole_number(text, 1, 2'000'000'000, "sitting")});
}

bool Script::is_handed_in() const {
    return !events.empty() && events.back().kind == ClockEventKind::hand_in;
}

bool Script::is_set(std::size_t place) const {
    return !marks.at(place) || marks[place]->is_set();
}

bool Script::is_marked() const {
    return std::all_of(marks.begin(), marks.end(), [](const auto& part) { return part.has_value(); });
}

Script blank_script(const std::string& candidate, std::shared_ptr<const Paper> paper, Day day,
                    ExtraTime extra, const PartsSet& set) {
    if (!paper)
        throw Error("a script needs a paper", Error::Kind::misused);
    Script script;
    script.candidate = candidate;
    script.positions = all_positions(*paper);
    script.day = day;
    script.extra_time = extra;
    script.marks.resize(script.positions.size());
    script.paper = std::move(paper);
    if (set) {
        leave_out_others(script, *set);
        check_set(*script.paper, as_far_as_marked(script).parts);
    }
    return script;
}

void keep_only(Script& script, const std::vector<std::size_t>& only, bool still_to_mark) {
    for (std::size_t place = 0; place < script.positions.size(); ++place) {
        const bool is_kept = std::binary_search(only.begin(), only.end(), script.positions[place]);
        std::optional<PartMarks>& marks = script.marks[place];
        if (!is_kept && marks && marks->attempted())
            throw Error("part " + script.paper->part(script.positions[place]).label +
                        " has marks: it can't be left out as not set");
        if (is_kept && marks && !marks->is_set())
            marks = still_to_mark ? std::nullopt : std::optional(PartMarks());
    }
    leave_out_others(script, only);
}

Script blank_script(const Candidate& candidate, const RetryId& retry, Day day, Day today,
                    const PartsSet& only) {
    const std::vector<std::size_t> tried = parts_tried(candidate, retry, only, day, today);
    const Question& question = check_can_be_taken(candidate, retry, day, today);
    const SittingRecord& record = get_sitting(candidate, retry.sitting);
    Script script;
    script.id = script_id(retry);
    script.candidate = candidate.code;
    script.paper = record.paper;
    script.positions = question.parts;
    script.day = day;
    script.extra_time = record.sitting.extra_time;
    script.marks.resize(script.positions.size());
    leave_out_others(script, tried);
    return script;
}

void enter_marks(Script& script, const std::vector<Entry>& entries) {
    check_covers(script);
    std::vector<std::size_t> places;
    std::vector<std::size_t> named;
    for (std::size_t place = 0; place < script.positions.size(); ++place) {
        const std::string& label = script.paper->parts()[script.positions[place]].label;
        if (std::any_of(entries.begin(), entries.end(),
                        [&](const Entry& entry) { return entry.part == label; })) {
            places.push_back(place);
            named.push_back(script.positions[place]);
        }
    }
    const std::vector<PartMarks> marks = marks_from_entries(*script.paper, named, entries, std::nullopt);
    for (std::size_t i = 0; i < places.size(); ++i)
        script.marks[places[i]] = marks[i];
}

Clock clock_of(const Script& script) {
    check_covers(script);
    if (script.id.retry)
        return played(Clock(parts_of(script)), script.events);
    const Sitting sitting = as_far_as_marked(script);
    std::vector<bool> is_worked = counting(sitting.parts);
    for (std::size_t place = 0; !script.is_marked() && place < is_worked.size(); ++place)
        is_worked[place] = script.is_set(place); // of a choice any may be worked on
    return played(clock_for(*script.paper, sitting, is_worked), script.events);
}

std::optional<Clock> clock_of(const Paper& paper, const Sitting& sitting) {
    if (sitting.clock.empty())
        return std::nullopt;
    return played(clock_for(paper, sitting, counting(sitting.parts)), sitting.clock);
}

ClockRecord record_of(const Clock& clock) {
    return clock.record(Moment::min());
}

Sitting sitting_of(const Script& script) {
    if (script.id.retry)
        throw Error("the script of " + to_text(script.id) + " is of a retry: it becomes a re-attempt",
                    Error::Kind::misused);
    Sitting sitting{script.day, script.extra_time, marks_of(script), script.events, script.notes};
    count_chosen(*script.paper, sitting.parts);
    return sitting;
}

Reattempt reattempt_of(const Script& script) {
    if (!script.id.retry)
        throw Error("the script of " + to_text(script.id) + " is of a paper: it becomes a sitting",
                    Error::Kind::misused);
    return {script.id.retry->question, script.id.retry->turn, script.day,
            marks_of(script),          script.events,         script.notes};
}

void check_fits(const Script& script) {
    check_covers(script);
    const Paper& paper = *script.paper;
    check_candidate_code(script.candidate);
    check_day(script.day);
    for (std::size_t i = 0; i < script.marks.size(); ++i)
        if (script.marks[i])
            check_fits(*script.marks[i], paper.parts()[script.positions[i]]);
    check_events(paper, script.positions, script.events);
    check_fits(paper, script.positions, script.notes);
}

std::string to_line(const std::vector<std::optional<PartMarks>>& marks) {
    std::string line;
    for (const auto& part : marks) {
        if (!line.empty())
            line += ' ';
        if (part)
            append_text(line, *part);
        else
            line += not_marked;
    }
    return line;
}

std::vector<std::optional<PartMarks>>
parse_script_line(const Paper& paper, const std::vector<std::size_t>& positions, std::string_view line) {
    std::vector<std::optional<PartMarks>> marks;
    for (const std::size_t position : positions) {
        if (line.empty())
            throw Error("fewer marks than parts");
        const std::size_t end = std::min(line.find(' '), line.size());
        const std::string_view text = line.substr(0, end);
        if (text == not_marked)
            marks.emplace_back();
        else
            marks.emplace_back(parse_part_marks(text, paper.part(position).max));
        line.remove_prefix(std::min(end + 1, line.size()));
    }
    if (!line.empty())
        throw Error("more marks than parts");
    return marks;
}

} // namespace inkturn
