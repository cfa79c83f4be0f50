#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/retry/exam.hpp"
#include "inkturn/retry/retry_rule.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

enum class SittingId : std::int64_t {};

/// Names one turn of one question dropped in a sitting: `12q7`, from the second turn on `12q7t2`. A
/// spreadsheet takes the text for neither a number nor a date.
struct RetryId {
    SittingId sitting{};
    std::string question; ///< label of one of the paper's questions
    int turn = 1;
};

std::string to_text(const RetryId& id);

/// Throws Error where the text isn't a retry's id.
RetryId parse_retry_id(std::string_view text);

/// The days on which a retry may fall.
struct Window {
    Day opens;
    Day closes;            ///< included
    bool squeezed = false; ///< earlier than 14 to 21 days after the attempt because the exam comes first
};

/// 14 to 21 days after the attempt, both included. An exam T days after the attempt, T at most 21, moves it
/// earlier: it closes on the day before the exam and opens max(⌈T/6⌉, min(14, T − 8)) days after the attempt;
/// nothing where T < 2. latest_day ends it as an exam would. Common practice in the trade; that it never
/// opens in the first sixth keeps the gap within the range that Cepeda et al. 2008 (Psychological Science
/// 19(11), 1095-1102) found best.
std::optional<Window> retry_window(Day attempt, std::optional<Day> exam);

/// The window of a retry by the exams on file.
struct WindowByExams {
    std::optional<Day> exam;      ///< the first still ahead that leaves a day; nothing: none does, or none is
    std::optional<Window> window; ///< nothing: no day is left, or it rests
    bool rests = false;           ///< of the exams after the attempt none is ahead any more
};

/// Only exams of the subject and of all subjects count, no mocks.
WindowByExams window_by_exams(const std::vector<Exam>& exams, std::string_view subject, Day attempt,
                              Day today);

/// The days of the window from today on or, once it has closed, today and the seven days after; always before
/// the exam. Nothing if the exam leaves none.
std::optional<DaySpan> possible_days(const std::optional<Window>& window, std::optional<Day> exam, Day today);

/// A re-attempt of a dropped question.
struct Reattempt {
    std::string question;
    int turn = 1;
    Day day;
    std::vector<PartMarks> parts;    ///< in the order of Question::parts; not set: it was left out
    std::vector<ClockEvent> clock{}; ///< empty: without one
    Notes notes{};
};

/// What of a question counted in a sitting, whose marks these are: what a retry asks for.
Question counted_of(const Paper& paper, const Question& question, const std::vector<PartMarks>& parts);

/// The question of the paper that a re-attempt is of. Throws Error unless there is one, and the re-attempt
/// has marks for each of its parts.
const Question& question_of(const Paper& paper, const Reattempt& reattempt);

/// Throws Error as question_of() does, and unless the turn is 1 or more, the day an accepted one, and marks,
/// clock and notes are those of the question's parts.
void check_fits(const Paper& paper, const Reattempt& reattempt);

/// What an attempt missed of a question. Throws Error where the marks are not those of the paper, or the
/// question's.
Missed missed_in(const Paper& paper, const Question& question, const Sitting& sitting);
Missed missed_in(const Paper& paper, const Question& question, const Reattempt& reattempt);

/// A turn of a secured question that was asked for once more.
struct AskedAgain {
    std::string question;
    int turn = 2; ///< the one after that which secured it
    Day day;      ///< its window counts from there
};

/// Throws Error unless the paper has the question, the turn is 2 or more and the day an accepted one.
void check_fits(const Paper& paper, const AskedAgain& again);

/// What is still open of a question after a sitting and its re-attempts.
struct OpenTurn {
    int turn;
    Day dropped_on;     ///< of the attempt that missed last, or the day it was asked for again: its window
                        ///< counts from there
    Marks missed_marks; ///< in the attempt before
    bool asked_again = false;
};

/// Nothing where the sitting did not miss the question, a re-attempt got it and it was not asked for again,
/// or the latest attempt missed too little by the rule. `reattempts` holds those of the sitting in ascending
/// turns, of all its questions.
std::optional<OpenTurn> open_turn(const Paper& paper, const Question& question, const Sitting& sitting,
                                  const std::vector<Reattempt>& reattempts, const RetryRule& rule,
                                  const std::vector<AskedAgain>& asked_again = {});

/// The turn that may follow in a history of re-attempts, whatever the rule and the paper's share got at are
/// now: nothing where the sitting lost no mark of the question, or a re-attempt earned all of its marks and
/// it was not asked for again. So what was recorded stays sound when either changes.
std::optional<OpenTurn> turn_to_follow(const Paper& paper, const Question& question, const Sitting& sitting,
                                       const std::vector<Reattempt>& reattempts,
                                       const std::vector<AskedAgain>& asked_again = {});

/// A sitting on file with what came of it.
struct SittingRecord {
    SittingId id{};
    std::shared_ptr<const Paper> paper;
    Sitting sitting;
    std::vector<Reattempt> reattempts;     ///< turns ascending within a question
    std::vector<AskedAgain> asked_again{}; ///< by question, then turn
};

/// What was recorded of a turn. Throws Error where nothing was.
const Reattempt& get_reattempt(const SittingRecord& record, const RetryId& id);

/// Whether any part of a question of its paper counted.
bool counts(const SittingRecord& record, const Question& question);

/// The open turn of a question of its paper.
std::optional<OpenTurn> open_turn(const SittingRecord& record, const Question& question,
                                  const RetryRule& rule);
std::optional<OpenTurn> turn_to_follow(const SittingRecord& record, const Question& question);

} // namespace inkturn
