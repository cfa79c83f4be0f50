#include "inkturn/retry/retry.hpp"

#include "core/retry/parts_to_earn.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/clock/clock_line.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <charconv>

namespace inkturn {
namespace {

constexpr Days min_gap_days{14};
constexpr Days max_gap_days{21};
constexpr Days window_length = max_gap_days - min_gap_days + Days{1};
constexpr Days grace{7}; ///< for a window that has closed
constexpr int max_turn = 9999;

/// Before an exam the eight days slide forward, but never into the first sixth of the time left.
Days squeezed_gap(Days until_exam) {
    const Days sixth{(until_exam.count() + 5) / 6};
    return std::max(sixth, std::min(min_gap_days, until_exam - window_length));
}

[[noreturn]] void refuse_retry_id(std::string_view text) {
    throw Error("'" + std::string(text) + "' is not a retry's id", Error::Kind::invalid,
                Error::Remedy::see_retry_ids);
}

constexpr auto loses_marks = [](const Paper&, const Part& part, const PartMarks& marks) {
    return marks_lost(part, marks) > Marks(0);
};

void check_covers(const Paper& paper, const Question& question, const Reattempt& reattempt) {
    if (reattempt.parts.size() != question.parts.size())
        throw Error("question " + question.label + " of paper " + paper.id() + ": marks for " +
                    std::to_string(reattempt.parts.size()) + " of " + std::to_string(question.parts.size()) +
                    " parts");
}

/// `marks_of(i)` are those of the question's i-th part.
template <typename IsMissed, typename MarksOf>
Missed missed_by(const Paper& paper, const Question& question, const IsMissed& is_missed_here,
                 const MarksOf& marks_of) {
    Missed missed{Marks(0), true};
    for (std::size_t i = 0; i < question.parts.size(); ++i) {
        const Part& part = paper.part(question.parts[i]);
        const PartMarks& marks = marks_of(i);
        if (marks.unaided() == part.max || !is_missed_here(paper, part, marks)) // mostly it is in full
            continue;
        missed.marks += marks_lost(part, marks);
        missed.slips_alone = missed.slips_alone && is_slip(marks);
    }
    return missed;
}

template <typename IsMissed>
Missed missed_by(const Paper& paper, const Question& question, const Sitting& sitting,
                 const IsMissed& is_missed_here) {
    check_covers(paper, sitting.parts);
    return missed_by(paper, question, is_missed_here,
                     [&](std::size_t i) -> const PartMarks& { return sitting.parts[question.parts[i]]; });
}

template <typename IsMissed>
Missed missed_by(const Paper& paper, const Question& question, const Reattempt& reattempt,
                 const IsMissed& is_missed_here) {
    check_covers(paper, question, reattempt);
    return missed_by(paper, question, is_missed_here,
                     [&](std::size_t i) -> const PartMarks& { return reattempt.parts[i]; });
}

/// `is_got(reattempt)` is asked of one turn after the other.
template <typename IsMissed, typename IsGot>
std::optional<OpenTurn> open_turn_by(const Paper& paper, const Question& question, const Sitting& sitting,
                                     const Turns& turns, const RetryRule& rule,
                                     const IsMissed& is_missed_here, const IsGot& is_got) {
    Missed missed = missed_by(paper, question, sitting, is_missed_here);
    OpenTurn open{1, sitting.day, missed.marks};
    if (missed.marks == Marks(0))
        return std::nullopt;
    for (const Reattempt& reattempt : turns.reattempts) {
        if (reattempt.question != question.label)
            continue;
        check_covers(paper, question, reattempt);
        missed = missed_by(paper, question, is_missed_here, [&](std::size_t i) -> const PartMarks& {
            const PartMarks& again = reattempt.parts[i];
            return again.is_set() ? again : sitting.parts[question.parts[i]];
        });
        open = {reattempt.turn + 1, reattempt.day, missed.marks};
        const AskedAgain* again = turns.find_again(question, open.turn);
        const bool got = is_got(reattempt, again != nullptr);
        if (again) {
            open.dropped_on = std::max(open.dropped_on, again->day);
            open.asked_again = true;
        } else if (got) {
            return std::nullopt;
        }
    }
    if (!open.asked_again && !rule.makes_retry(missed))
        return std::nullopt;
    return open;
}

} // namespace

void check_rule(const RetryRule& rule) {
    if (rule.missed_from < Marks(1) || rule.missed_from > max_part_marks)
        throw Error("a question makes a retry from 1 to " + std::to_string(max_part_marks.count()) +
                    " missed marks on, not from " + std::to_string(rule.missed_from.count()));
}

std::string to_text(const RetryId& id) {
    std::string text = std::to_string(static_cast<std::int64_t>(id.sitting)) + "q" + id.question;
    if (id.turn > 1)
        text += "t" + std::to_string(id.turn);
    return text;
}

RetryId parse_retry_id(std::string_view text) {
    const std::string_view whole = text;
    std::int64_t sitting = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), sitting);
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    if (error != std::errc() || sitting < 1 || text.empty() || text.front() != 'q')
        refuse_retry_id(whole);
    text.remove_prefix(1);

    RetryId id{SittingId{sitting}, "", 1};
    const std::size_t last_letter = text.find_last_not_of("0123456789");
    const bool has_turn = last_letter != std::string_view::npos && last_letter > 0 &&
                          text[last_letter] == 't' && last_letter + 1 < text.size();
    if (has_turn) {
        const auto turn = read_whole_number(text.substr(last_letter + 1), max_turn);
        if (!turn || *turn < 1)
            refuse_retry_id(whole);
        id.turn = *turn;
        text = text.substr(0, last_letter);
    }
    const auto label = read_label(text);
    if (!label)
        refuse_retry_id(whole);
    id.question = *label;
    return id;
}

Question counted_of(const Paper& paper, const Question& question, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    Question counted{question.label, {}, Marks(0)};
    counted.parts.reserve(question.parts.size());
    for (const std::size_t position : question.parts)
        if (parts[position].counts()) {
            counted.parts.push_back(position);
            counted.marks += paper.part(position).max;
        }
    return counted;
}

bool counts(const SittingRecord& record, const Question& question) {
    return std::any_of(question.parts.begin(), question.parts.end(),
                       [&](std::size_t part) { return record.sitting.parts[part].counts(); });
}

const Question& question_of(const Paper& paper, const Reattempt& reattempt) {
    const auto position = paper.find_question(reattempt.question);
    if (!position)
        throw Error("paper " + paper.id() + " has no question " + reattempt.question + " to retry",
                    Error::Kind::not_found, Error::Remedy::show_paper, paper.id());
    const Question& question = paper.questions()[*position];
    check_covers(paper, question, reattempt);
    return question;
}

void check_fits(const Paper& paper, const Reattempt& reattempt) {
    const Question& question = question_of(paper, reattempt);
    if (reattempt.turn < 1 || reattempt.turn > max_turn)
        throw Error("a retry's turn is 1 to " + std::to_string(max_turn) + ", not " +
                    std::to_string(reattempt.turn));
    check_day(reattempt.day);
    check_fits(paper, question.parts, reattempt.parts);
    check_events(paper, question.parts, reattempt.clock);
    check_fits(paper, question.parts, reattempt.notes);
}

const Reattempt& get_reattempt(const SittingRecord& record, const RetryId& id) {
    for (const Reattempt& reattempt : record.reattempts)
        if (reattempt.question == id.question && reattempt.turn == id.turn)
            return reattempt;
    throw Error("retry " + to_text(id) + " was not recorded", Error::Kind::not_found);
}

void check_fits(const Paper& paper, const AskedAgain& again) {
    if (!paper.find_question(again.question))
        throw Error("paper " + paper.id() + " has no question " + again.question + " to retry",
                    Error::Kind::not_found, Error::Remedy::show_paper, paper.id());
    if (again.turn < 2 || again.turn > max_turn)
        throw Error("a question comes again on turn 2 to " + std::to_string(max_turn) + ", not " +
                    std::to_string(again.turn));
    check_day(again.day);
}

std::optional<Window> retry_window(Day attempt, std::optional<Day> exam) {
    if (attempt + max_gap_days > latest_day) // the calendar ends there, like an exam that comes first
        exam = std::min(exam.value_or(latest_day), latest_day);
    if (!exam || attempt + max_gap_days < *exam)
        return Window{attempt + min_gap_days, attempt + max_gap_days, false};
    const Days until_exam = *exam - attempt;
    if (until_exam < Days{2})
        return std::nullopt;
    return Window{attempt + squeezed_gap(until_exam), *exam - Days{1}, true};
}

WindowByExams window_by_exams(const std::vector<Exam>& exams, std::string_view subject, Day attempt,
                              Day today) {
    WindowByExams by;
    bool any_ahead = false;
    bool any_passed = false;
    for (const Exam& exam : exams) {
        if (exam.day <= attempt || !examines(exam, subject))
            continue;
        any_ahead = any_ahead || exam.day > today;
        any_passed = any_passed || exam.day <= today;
        if (exam.day > today && retry_window(attempt, exam.day))
            by.exam = std::min(by.exam.value_or(exam.day), exam.day);
    }
    by.rests = any_passed && !any_ahead;
    if (by.exam || (!any_ahead && !any_passed))
        by.window = retry_window(attempt, by.exam);
    return by;
}

std::optional<DaySpan> possible_days(const std::optional<Window>& window, std::optional<Day> exam,
                                     Day today) {
    if (!window)
        return std::nullopt;
    DaySpan possible_days{std::max(window->opens, today), window->closes};
    if (window->closes < today)
        possible_days = {today, std::min(today + grace, latest_day)};
    if (exam)
        possible_days.last = std::min(possible_days.last, *exam - Days{1});
    if (possible_days.last < possible_days.first)
        return std::nullopt;
    return possible_days;
}

Missed missed_in(const Paper& paper, const Question& question, const Sitting& sitting) {
    return missed_by(paper, question, sitting, is_missed);
}

Missed missed_in(const Paper& paper, const Question& question, const Reattempt& reattempt) {
    return missed_by(paper, question, reattempt, is_missed);
}

std::optional<OpenTurn> open_turn(const Paper& paper, const Question& question, const Sitting& sitting,
                                  const std::vector<Reattempt>& reattempts, const RetryRule& rule,
                                  const std::vector<AskedAgain>& asked_again) {
    std::optional<PartsToEarn> to_earn; // most questions have no re-attempt
    const auto is_got = [&](const Reattempt& reattempt, bool again) {
        if (!to_earn)
            to_earn.emplace(paper, question, sitting);
        const bool got = to_earn->take(reattempt);
        if (again)
            to_earn->ask_again();
        return got;
    };
    return open_turn_by(paper, question, sitting, {reattempts, asked_again}, rule, is_missed, is_got);
}

std::optional<OpenTurn> turn_to_follow(const Paper& paper, const Question& question, const Sitting& sitting,
                                       const std::vector<Reattempt>& reattempts,
                                       const std::vector<AskedAgain>& asked_again) {
    const auto is_got = [&](const Reattempt& reattempt, bool) {
        const auto marks_of = [&](std::size_t i) -> const PartMarks& {
            const PartMarks& again = reattempt.parts[i];
            return again.is_set() ? again : sitting.parts[question.parts[i]];
        };
        return missed_by(paper, question, loses_marks, marks_of).marks == Marks(0);
    };
    return open_turn_by(paper, question, sitting, {reattempts, asked_again}, RetryRule(), loses_marks,
                        is_got);
}

} // namespace inkturn
