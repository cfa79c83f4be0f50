#include "inkturn/retry/candidate.hpp"

#include "core/retry/kept_days.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/plan/time_ahead.hpp"
#include "inkturn/retry/latest.hpp"
#include "inkturn/retry/turn_outcome.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t max_code_length = 64;

/// A sitting's open retries with their windows, not yet placed.
void add_open_retries(const Candidate& candidate, const SittingRecord& record, Day today,
                      std::vector<Retry>& retries) {
    const Paper& paper = *record.paper;
    std::vector<Seconds> allowances;
    for (std::size_t position = 0; position < paper.questions().size(); ++position) {
        const Question& question = paper.questions()[position];
        const auto open = open_turn(record, question, candidate.wishes.retries);
        if (!open || !is_latest(candidate, record, question))
            continue;
        const Steering steering = steering_of(candidate, record.id, question.label);
        if (steering.let_go)
            continue;
        if (allowances.empty())
            allowances = part_allowances(paper, record.sitting.extra_time);

        Retry retry;
        retry.id = {record.id, question.label, open->turn};
        retry.candidate = candidate.code;
        retry.paper = record.paper;
        retry.question = position;
        retry.missed_marks = open->missed_marks;
        if (Question counted = counted_of(paper, question, record.sitting.parts);
            counted.parts.size() < question.parts.size())
            retry.counted = std::move(counted);
        retry.allowance = question_allowance(retry.paper_question(), allowances);
        retry.dropped_on = open->dropped_on;
        const WindowByExams by = window_by_exams(candidate.exams, paper.subject(), open->dropped_on, today);
        retry.exam = by.exam;
        retry.window = by.window;
        retry.late = by.window && by.window->closes < today;
        retry.possible_days = possible_days(by.window, by.exam, today);
        retry.wanted = steering.standing(today);
        retry.asked_again = open->asked_again;
        retries.push_back(std::move(retry));
    }
}

/// The allowance of what a re-attempt tried, by those of the paper's parts.
Seconds time_tried(const Paper& paper, const Reattempt& reattempt, const std::vector<Seconds>& allowances) {
    Question tried = question_of(paper, reattempt);
    for (std::size_t i = tried.parts.size(); i-- > 0;)
        if (!reattempt.parts[i].is_set())
            tried.parts.erase(tried.parts.begin() + static_cast<std::ptrdiff_t>(i));
    return question_allowance(tried, allowances);
}

/// Whether the sitting, or a re-attempt recorded since, missed the question's part at `place`.
bool was_missed(const SittingRecord& record, const Question& question, std::size_t place) {
    const Paper& paper = *record.paper;
    const std::size_t position = question.parts[place];
    const Part& part = paper.part(position);
    return is_missed(paper, part, record.sitting.parts[position]) ||
           std::any_of(record.reattempts.begin(), record.reattempts.end(), [&](const Reattempt& reattempt) {
               return reattempt.question == question.label && is_missed(paper, part, reattempt.parts[place]);
           });
}

/// The days that were chosen before.
void add_kept_days(const Candidate& candidate, std::vector<Retry>& retries) {
    const KeptDays days(candidate.placements);
    for (Retry& retry : retries)
        retry.kept_day = days.find(retry.id.sitting, retry.id.question);
}

bool is_in_any(const std::vector<DaySpan>& spans, Day day) {
    return std::any_of(spans.begin(), spans.end(), [day](DaySpan span) { return span.contains(day); });
}

/// Work that has its day: a retry is placed beside it.
WorkPiece piece_on(const PlannedWork& planned) {
    WorkPiece piece{planned.duration, {{planned.day, planned.day}}};
    piece.kept_day = planned.day;
    return piece;
}

/// Those without a day last.
void sort_by_day(std::vector<Retry>& retries) {
    std::vector<std::pair<Day, std::size_t>> places; // equal ones keep their order
    places.reserve(retries.size());
    for (std::size_t i = 0; i < retries.size(); ++i)
        places.emplace_back(retries[i].day.value_or(Day::max()), i);
    std::sort(places.begin(), places.end());
    std::vector<Retry> sorted;
    sorted.reserve(retries.size());
    for (const auto& [day, place] : places)
        sorted.push_back(std::move(retries[place]));
    retries = std::move(sorted);
}

void check_name(std::string_view text, const std::string& kind, const std::string& noun) {
    const std::string what = kind + " '" + std::string(text) + "'";
    if (text.empty())
        throw Error(what + ": " + noun + " has 1 to " + std::to_string(max_code_length) + " characters");
    check_printable(text, max_code_length, what);
    check_is_visible(text, what);
    if (trimmed(text) != text)
        throw Error(what + ": " + noun + " has no spaces at its ends");
    if (text.front() == '-' && text.size() > 1 && !is_digit(text[1])) // -3 is a number
        throw Error(what + ": " + noun + " does not begin with '-', as an option does");
}

const Question& question_named(const SittingRecord& record, const RetryId& id) {
    const auto position = record.paper->find_question(id.question);
    if (!position)
        throw Error("no retry " + to_text(id) + ": paper " + record.paper->id() + " has no question " +
                        id.question + " to retry",
                    Error::Kind::not_found, Error::Remedy::list_retries);
    return record.paper->questions()[*position];
}

const Question& question_retried(const SittingRecord& record, const RetryId& id) {
    const Question& question = question_named(record, id);
    if (std::none_of(question.parts.begin(), question.parts.end(),
                     [&](std::size_t part) { return record.sitting.parts[part].is_set(); }))
        throw Error("no retry " + to_text(id) + ": question " + id.question + " was not set in that sitting",
                    Error::Kind::not_found);
    if (!turn_to_follow(*record.paper, question, record.sitting, {}))
        throw Error("no retry " + to_text(id) + ": question " + id.question + " was not missed",
                    Error::Kind::not_found);
    if (missed_marks(*record.paper, question, record.sitting.parts) == Marks(0))
        throw Error("no retry " + to_text(id) + ": question " + id.question +
                        " was got: it has the share of its marks that its paper asks for",
                    Error::Kind::not_found, Error::Remedy::show_paper, record.paper->id());
    return question;
}

/// Of a question that was missed and not got since.
Error missed_too_little(const SittingRecord& record, const Question& question, const RetryId& id) {
    Missed missed = missed_in(*record.paper, question, record.sitting);
    for (const Reattempt& reattempt : record.reattempts)
        if (reattempt.question == question.label)
            missed = missed_in(*record.paper, question, reattempt);
    const bool one = missed.marks == Marks(1);
    return Error("no retry " + to_text(id) + ": " + std::to_string(missed.marks.count()) +
                     (one ? " mark of question " : " marks of question ") + id.question +
                     (one ? " was missed" : " were missed") +
                     (missed.slips_alone ? ", by slips or misreadings alone" : "") +
                     ", and by the wishes on file that makes no retry",
                 Error::Kind::conflict, Error::Remedy::see_retry_rule);
}

bool is_secured(const SittingRecord& record, const Question& question) {
    const std::vector<TurnOutcome> all = outcomes(record, question);
    return std::any_of(all.begin(), all.end(), [](const TurnOutcome& outcome) { return outcome.got; });
}

/// The open turn, which is the one that the id names.
OpenTurn check_is_next_turn(const SittingRecord& record, const Question& question, const RetryId& id,
                            const RetryRule& rule) {
    for (const Reattempt& reattempt : record.reattempts)
        if (reattempt.question == id.question && reattempt.turn == id.turn)
            throw Error("retry " + to_text(id) + " was recorded on " + iso(reattempt.day),
                        Error::Kind::conflict, Error::Remedy::undo_retry, to_text(id));
    const auto open = open_turn(record, question, rule);
    if (!open && is_secured(record, question))
        throw Error("no retry " + to_text(id) + ": question " + id.question + " is already secured",
                    Error::Kind::conflict);
    if (!open)
        throw missed_too_little(record, question, id);
    if (open->turn != id.turn)
        throw Error("no retry " + to_text(id) + " yet: record " +
                        to_text(RetryId{id.sitting, id.question, open->turn}) + " first",
                    Error::Kind::conflict);
    return *open;
}

} // namespace

std::optional<OpenTurn> open_turn(const SittingRecord& record, const Question& question,
                                  const RetryRule& rule) {
    return open_turn(*record.paper, question, record.sitting, record.reattempts, rule, record.asked_again);
}

std::optional<OpenTurn> turn_to_follow(const SittingRecord& record, const Question& question) {
    return turn_to_follow(*record.paper, question, record.sitting, record.reattempts, record.asked_again);
}

Steering steering_of(const Candidate& candidate, SittingId sitting, std::string_view question) {
    for (const SteeredRetry& steered : candidate.steered_retries)
        if (steered.sitting == sitting && steered.question == question)
            return steered.steering;
    return {};
}

Steering steering_of(const Candidate& candidate, WorkPurpose what, std::string_view subject,
                     std::string_view work_name) {
    for (const SteeredWork& steered : candidate.steered_work)
        if (steered.what == what && steered.subject == subject && steered.name == work_name)
            return steered.steering;
    return {};
}

void check_whole(const Candidate& candidate) {
    check_availability(candidate.availability);
    for (const SittingRecord& record : candidate.sittings) {
        if (!record.paper)
            throw Error("a sitting needs a paper", Error::Kind::misused);
        check_covers(*record.paper, record.sitting.parts);
        for (const Reattempt& reattempt : record.reattempts)
            question_of(*record.paper, reattempt);
    }
}

bool is_to_do(const Candidate& candidate, const PlannedWork& planned) {
    switch (planned.what) {
    case WorkPurpose::sit:
    case WorkPurpose::reservation:
        return !was_sat(candidate, planned.name);
    case WorkPurpose::check:
        return is_to_check(candidate, planned.subject, planned.name);
    case WorkPurpose::relearn:
    case WorkPurpose::recall:
        return true;
    }
    return true;
}

void check_candidate_code(std::string_view code) {
    check_name(code, "candidate", "a code");
}

void check_class_name(std::string_view class_name) {
    check_name(class_name, "class", "a name");
}

std::vector<Retry> retries_to_place(const Candidate& candidate, Day today) {
    check_whole(candidate);
    std::vector<Retry> retries;
    for (const SittingRecord& record : candidate.sittings)
        add_open_retries(candidate, record, today, retries);
    add_kept_days(candidate, retries);
    return retries;
}

bool has_no_day_left(const Retry& retry, const std::vector<Exam>& exams, Day today) {
    return !retry.window && !is_examined_by(exams, retry.paper->subject(), today);
}

void give_day(Retry& retry, std::optional<Day> day) {
    retry.day = day;
    retry.day_is_new = day && day != retry.kept_day;
    retry.outside_window = day && !retry.late && (*day < retry.window->opens || *day > retry.window->closes);
}

Seconds time_worked(const Candidate& candidate, Day day) {
    Seconds sum{0};
    for (const SittingRecord& record : candidate.sittings) {
        const ExtraTime extra = record.sitting.extra_time;
        if (record.sitting.day == day)
            sum += time_with_marking(allowance(*record.paper, record.sitting), candidate.wishes);
        std::vector<Seconds> allowances;
        for (const Reattempt& reattempt : record.reattempts)
            if (reattempt.day == day) {
                if (allowances.empty())
                    allowances = part_allowances(*record.paper, extra);
                sum += time_tried(*record.paper, reattempt, allowances);
            }
    }
    for (const Relearned& relearned : candidate.relearned)
        if (relearned.day == day)
            sum += relearned.half ? Relearned::time_of_half : 2 * Relearned::time_of_half;
    return sum;
}

std::vector<Retry> open_retries(const Candidate& candidate, Day today, PlacementMode mode) {
    std::vector<Retry> retries = retries_to_place(candidate, today);
    Day last = today;
    for (const Retry& retry : retries)
        last = std::max({last, last_day_looked_at({retry.exam, retry.window, false}, today),
                         retry.wanted.value_or(today)});
    const TimeAhead time =
        time_ahead(candidate.availability, candidate.exams, time_worked(candidate, today), {today, last});
    std::vector<WorkPiece> pieces;
    std::vector<Retry*> placed;
    for (Retry& retry : retries) {
        WorkPiece piece = retry_piece(retry.allowance, {retry.exam, retry.window, false}, retry.dropped_on,
                                      static_cast<int>(pieces.size()), time);
        if (piece.spans.empty())
            continue;
        if (mode == PlacementMode::keep && retry.kept_day &&
            (retry.late ? candidate.planned_for == today : is_in_any(piece.spans, *retry.kept_day)))
            piece.kept_day = retry.kept_day;
        piece.wish = retry.wanted;
        pieces.push_back(std::move(piece));
        placed.push_back(&retry);
    }
    if (!placed.empty()) {
        for (const PlannedWork& planned : candidate.planned)
            if (today <= planned.day && planned.day <= last && is_to_do(candidate, planned))
                pieces.push_back(piece_on(planned));
        const WorkPlan plan = place_work(time, pieces);
        for (std::size_t i = 0; i < placed.size(); ++i)
            give_day(*placed[i], plan.days[i]);
    }
    sort_by_day(retries);
    return retries;
}

const SittingRecord& get_sitting(const Candidate& candidate, SittingId id) {
    for (const SittingRecord& record : candidate.sittings)
        if (record.id == id)
            return record;
    throw Error("candidate " + candidate.code + " has no sitting " +
                    std::to_string(static_cast<std::int64_t>(id)),
                Error::Kind::not_found, Error::Remedy::list_sittings);
}

std::optional<Window> window_of(const Candidate& candidate, const RetryId& id, Day today) {
    check_whole(candidate);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const auto open = open_turn(record, question_named(record, id), candidate.wishes.retries);
    if (!open)
        return std::nullopt;
    return window_by_exams(candidate.exams, record.paper->subject(), open->dropped_on, today).window;
}

const Question& get_missed_question(const Candidate& candidate, const RetryId& id) {
    check_whole(candidate);
    return question_retried(get_sitting(candidate, id.sitting), id);
}

const Question& check_can_be_taken(const Candidate& candidate, const RetryId& id, Day day, Day today) {
    check_whole(candidate);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const Question& question = question_retried(record, id);
    const OpenTurn open = check_is_next_turn(record, question, id, candidate.wishes.retries);
    if (!is_latest(candidate, record, question))
        throw Error("no retry " + to_text(id) + ": paper " + record.paper->id() +
                        " was sat again later, and that sitting's retries count",
                    Error::Kind::conflict);
    if (const auto let_go = steering_of(candidate, id.sitting, id.question).let_go)
        throw Error("retry " + to_text(id) + " was dropped on " + iso(let_go->day) + " (" + let_go->reason +
                        ")",
                    Error::Kind::conflict, Error::Remedy::undo_retry, to_text(id));
    if (day < open.dropped_on)
        throw Error("retry " + to_text(id) + " on " + iso(day) + ": the question was " +
                        (open.asked_again ? "asked for again" : "missed") + " on " + iso(open.dropped_on) +
                        "; a re-attempt can't come before that",
                    Error::Kind::conflict);
    check_has_happened(day, today, "a re-attempt");
    return question;
}

std::vector<std::size_t> parts_tried(const Candidate& candidate, const RetryId& id,
                                     const std::optional<std::vector<std::size_t>>& only, Day day,
                                     Day today) {
    const Question& question = check_can_be_taken(candidate, id, day, today);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const Paper& paper = *record.paper;
    std::vector<std::size_t> asked = counted_of(paper, question, record.sitting.parts).parts;
    if (!only)
        return asked;
    const auto is_among = [](const std::vector<std::size_t>& positions, std::size_t part) {
        return std::find(positions.begin(), positions.end(), part) != positions.end();
    };
    for (const std::size_t part : *only)
        if (!is_among(asked, part))
            throw Error("part " + paper.part(part).label + " is not what retry " + to_text(id) + " asks for");
    for (std::size_t place = 0; place < question.parts.size(); ++place)
        if (const std::size_t part = question.parts[place];
            !is_among(*only, part) && was_missed(record, question, place))
            throw Error("part " + paper.part(part).label +
                        " was missed, so a re-attempt can't leave it out: name it too");
    return *only;
}

Reattempt take_retry(const Candidate& candidate, const RetryId& id, const std::vector<Entry>& entries,
                     std::optional<Rest> rest, Day day, Day today,
                     const std::optional<std::vector<std::size_t>>& only) {
    const Question& question = check_can_be_taken(candidate, id, day, today);
    const Paper& paper = *get_sitting(candidate, id.sitting).paper;
    const std::vector<std::size_t> tried = parts_tried(candidate, id, only, day, today);
    const std::vector<PartMarks> marks = marks_from_entries(paper, tried, entries, rest);
    std::vector<PartMarks> of_all;
    for (const std::size_t part : question.parts) {
        const auto place = std::find(tried.begin(), tried.end(), part);
        of_all.push_back(place == tried.end() ? PartMarks::not_set()
                                              : marks[static_cast<std::size_t>(place - tried.begin())]);
    }
    return {id.question, id.turn, day, std::move(of_all), {}};
}

void check_can_replace(const Paper& paper, const Sitting& sitting, const SittingRecord& on_file, Day today) {
    check_has_happened(sitting.day, today, "a sitting");
    const std::string which = "sitting " + std::to_string(static_cast<std::int64_t>(on_file.id));
    for (const Reattempt& reattempt : on_file.reattempts) {
        const std::string id = to_text(RetryId{on_file.id, reattempt.question, reattempt.turn});
        const auto refused = [&](const std::string& why) {
            return Error(which + why, Error::Kind::conflict, Error::Remedy::undo_retry_first, id);
        };
        const auto position = paper.find_question(reattempt.question);
        if (!position || !turn_to_follow(paper, paper.questions()[*position], sitting, {}))
            throw refused(": question " + reattempt.question + " would no longer be missed, but its retry " +
                          id + " was recorded");
        const Question& question = paper.questions()[*position];
        for (std::size_t i = 0; i < question.parts.size(); ++i)
            if (is_missed(paper, paper.part(question.parts[i]), sitting.parts[question.parts[i]]) &&
                !reattempt.parts[i].counts())
                throw refused(": part " + paper.part(question.parts[i]).label +
                              " would be missed, but its retry " + id + " left it out");
        if (reattempt.day < sitting.day)
            throw refused(" would come after its retry " + id + " of " + iso(reattempt.day));
    }
}

void check_can_be_undone(const Candidate& candidate, const RetryId& id) {
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    bool found = false;
    for (const Reattempt& reattempt : record.reattempts) {
        if (reattempt.question != id.question)
            continue;
        found = found || reattempt.turn == id.turn;
        if (reattempt.turn > id.turn)
            throw Error("retry " + to_text(id) + ": a later turn was recorded", Error::Kind::conflict,
                        Error::Remedy::undo_retry_first,
                        to_text(RetryId{id.sitting, id.question, reattempt.turn}));
    }
    if (!found)
        throw Error("retry " + to_text(id) + " was not recorded; there is nothing to undo",
                    Error::Kind::not_found);
    const auto open = turn_to_follow(record, question_named(record, id));
    if (!open)
        return;
    const std::string after = to_text(RetryId{id.sitting, id.question, open->turn});
    const bool is_let_go = steering_of(candidate, id.sitting, id.question).let_go.has_value();
    if (is_let_go || open->asked_again)
        throw Error("retry " + to_text(id) + ": " + after + " was " +
                        (is_let_go ? "dropped" : "asked for again") + " since",
                    Error::Kind::conflict, Error::Remedy::undo_retry_first, after);
}

} // namespace inkturn
