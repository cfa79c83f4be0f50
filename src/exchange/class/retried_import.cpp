#include "exchange/class/retried_import.hpp"

#include "exchange/class/code_check.hpp"
#include "exchange/class/retried_lines.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/retry/turn_outcome.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "inkturn/store/desk.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <utility>

namespace inkturn {
namespace {

Problem problem_at(const Problem& place, std::string message) {
    return {place.line, place.column, std::move(message), Error::Remedy::none, {}, place.cell};
}

Problem problem_at(const Problem& place, const Error& error) {
    return {place.line, place.column, error.what(), error.remedy(), error.about(), place.cell};
}

SittingRecord* find_record(Candidate& candidate, SittingId id) {
    for (SittingRecord& record : candidate.sittings)
        if (record.id == id)
            return &record;
    return nullptr;
}

/// The marks as the file could have said them: it doesn't say which codes were earned unless it names them.
bool same_marks(const std::vector<PartMarks>& on_file, const std::vector<PartMarks>& from_file) {
    return std::equal(on_file.begin(), on_file.end(), from_file.begin(), from_file.end(),
                      [](PartMarks known, const PartMarks& said) {
                          if (!said.by_code())
                              known.drop_by_code();
                          return known == said;
                      });
}

/// A retry with the marks that the file gives it.
struct RetryMarks {
    std::vector<Entry> entries;
    std::optional<Rest> rest;
    std::optional<std::vector<std::size_t>> only; ///< nothing: no part was left out
    bool tried = false;
};

class RetriedCheck {
  public:
    RetriedCheck(const Store& store, const RetriedOptions& options, ClassRetried& retried)
        : store_(store), options_(options), retried_(retried) {
        for (const std::string& code : store.candidates())
            alike_.add(code);
        if (options.of_class)
            for (std::string& code : store.members(*options.of_class))
                members_.insert(std::move(code));
    }

    /// All that is wrong with an entry is said, so what hangs on nothing wrong is looked at all the same.
    void take(const RetriedEntry& entry) {
        if (!entry.refused && entry.is_blank()) {
            ++retried_.left_open;
            return;
        }
        const auto code = known_code(entry);
        const auto day = entry.day ? entry.day : options_.file.date;
        if (!day && !entry.bad_day)
            refuse(entry.at, "no date: write it in the column date, or use --date D for all rows");
        if (!code || (!day && !entry.id))
            return;
        Candidate& candidate = loaded(*code);
        const auto id = entry.id ? named_id(candidate, entry) : id_of_question(candidate, entry, *day);
        if (id && is_first(*id, entry) && !entry.refused)
            take(entry, candidate, *id, entry.bad_day ? std::nullopt : day);
    }

  private:
    void refuse(const Problem& place, const std::string& why) {
        retried_.problems.add(problem_at(place, why));
    }

    Candidate& loaded(const std::string& code) {
        const auto found = candidates_.find(code);
        return found != candidates_.end() ? found->second
                                          : candidates_.emplace(code, store_.candidate(code)).first->second;
    }

    std::optional<std::string> known_code(const RetriedEntry& entry);
    std::optional<RetryId> named_id(const Candidate& candidate, const RetriedEntry& entry);
    std::optional<RetryId> id_of_question(const Candidate& candidate, const RetriedEntry& entry, Day day);
    bool is_first(const RetryId& id, const RetriedEntry& entry);
    void take(const RetriedEntry& entry, Candidate& candidate, const RetryId& id, std::optional<Day> day);
    bool is_on_file(const RetriedEntry& entry, const SittingRecord& record, const RetryId& id,
                    const RetryMarks& marks, Day day);
    std::optional<RetryMarks> marks_of(const RetriedEntry& entry, const Paper& paper,
                                       const Question& question);
    void take_mark(const RetriedMarks& mark, const Paper& paper, const Question& question, RetryMarks& marks);
    bool is_left_open(const RetriedEntry& entry, const RetryMarks& marks);
    void record(const RetriedEntry& entry, Candidate& candidate, const RetryId& id, const RetryMarks& marks,
                Day day);
    void doubt_if_early(const RetriedEntry& entry, const Candidate& candidate, const RetryId& id, Day day);

    const Store& store_;
    const RetriedOptions& options_;
    ClassRetried& retried_;
    CodesAlike alike_; ///< codes on file
    std::set<std::string> members_;
    std::map<std::string, Candidate> candidates_;
    std::map<std::string, Problem> first_; ///< where each retry is first named
};

/// A code as a sheet of ours may have it: with an apostrophe before what a spreadsheet could take for a
/// formula, see CsvWriter.
std::string without_apostrophe(const std::string& code) {
    const bool is_guarded = code.size() > 1 && code.front() == '\'' &&
                            std::string_view("=+-@").find(code[1]) != std::string_view::npos;
    return is_guarded ? code.substr(1) : code;
}

/// The code on file; nothing where there is none, which is a problem.
std::optional<std::string> RetriedCheck::known_code(const RetriedEntry& entry) {
    std::string code = entry.candidate;
    if (options_.of_candidate && code != *options_.of_candidate) {
        refuse(entry.at, "the line is of candidate " + code + ", not of " + *options_.of_candidate +
                             ": leave it out, or use --candidate");
        return std::nullopt;
    }
    if (!store_.has_candidate(code))
        code = without_apostrophe(code);
    if (!store_.has_candidate(code)) {
        const std::string* alike = alike_.find(code);
        if (!alike) {
            const auto nearest = nearest_name(code, store_.candidates());
            refuse(entry.at, "no candidate '" + code + "' on file; " +
                                 (nearest ? "did you mean " + *nearest + "?" : "correct the code"));
            return std::nullopt;
        }
        retried_.doubts.raise(DoubtKind::known_code, problem_at(entry.at, alike_text(code, *alike)));
        code = *alike;
    }
    if (options_.of_class && members_.count(code) == 0) {
        refuse(entry.at, "candidate " + code + " is not in class " + *options_.of_class +
                             ": take the row out, or leave --class out");
        return std::nullopt;
    }
    return code;
}

std::optional<RetryId> RetriedCheck::named_id(const Candidate& candidate, const RetriedEntry& entry) {
    const RetryId& id = *entry.id;
    const auto owner = store_.candidate_of(id.sitting);
    if (!owner || *owner != candidate.code) {
        refuse(entry.at, "retry " + to_text(id) +
                             (owner ? " is another candidate's, not " + candidate.code + "'s"
                                    : " is of no sitting on file") +
                             ": correct the id or the code");
        return std::nullopt;
    }
    const SittingRecord& of = get_sitting(candidate, id.sitting);
    const bool other_paper = !entry.paper.empty() && entry.paper != of.paper->id();
    const bool other_question = !entry.question.empty() && entry.question != id.question;
    if (other_paper || other_question) {
        refuse(entry.at, "retry " + to_text(id) + " is question " + id.question + " of " + of.paper->id() +
                             ", and the row says " + (other_paper ? entry.paper : entry.question) +
                             ": correct one or the other");
        return std::nullopt;
    }
    return id;
}

/// The turn recorded on that day, or else the one that is open.
std::optional<RetryId> RetriedCheck::id_of_question(const Candidate& candidate, const RetriedEntry& entry,
                                                    Day day) {
    const auto paper = store_.find_paper(entry.paper);
    if (!paper || !paper->find_question(entry.question)) {
        refuse(entry.at, paper ? "paper " + entry.paper + " has no question " + entry.question +
                                     " to retry: correct the question"
                               : "no paper " + entry.paper + " on file: correct its id");
        return std::nullopt;
    }
    for (const SittingRecord& record : candidate.sittings)
        for (const Reattempt& reattempt : record.reattempts)
            if (record.paper->id() == entry.paper && reattempt.question == entry.question &&
                reattempt.day == day)
                return RetryId{record.id, reattempt.question, reattempt.turn};
    std::vector<RetryId> open;
    for (const Retry& retry : retries_to_place(candidate, options_.file.today))
        if (retry.paper->id() == entry.paper && retry.id.question == entry.question)
            open.push_back(retry.id);
    if (open.size() == 1)
        return open.front();
    refuse(entry.at, "candidate " + candidate.code + (open.empty() ? " has no retry" : " has several") +
                         " open of question " + entry.question + " of " + entry.paper +
                         (open.empty() ? ": correct the row or leave it out"
                                       : ": name one of them, such as " + to_text(open.front()) +
                                             ", in a column retry"));
    return std::nullopt;
}

bool RetriedCheck::is_first(const RetryId& id, const RetriedEntry& entry) {
    const auto [first, is_new] = first_.emplace(to_text(id), entry.at);
    if (!is_new)
        refuse(entry.at, "retry " + to_text(id) + " is already in " +
                             (first->second.cell.empty() ? "line " + std::to_string(first->second.line)
                                                         : "cell " + first->second.cell) +
                             ": leave one out");
    return is_new;
}

/// Without a day only the marks are looked at.
void RetriedCheck::take(const RetriedEntry& entry, Candidate& candidate, const RetryId& id,
                        std::optional<Day> day) {
    const SittingRecord& of = get_sitting(candidate, id.sitting);
    const auto position = of.paper->find_question(id.question);
    if (!position) {
        refuse(entry.at, "paper " + of.paper->id() + " has no question " + id.question + " to retry");
        return;
    }
    const Question counted = counted_of(*of.paper, of.paper->question(*position), of.sitting.parts);
    const auto marks = marks_of(entry, *of.paper, counted);
    if (!marks || !day || is_on_file(entry, of, id, *marks, *day))
        return;
    if (Desk::find(store_, script_id(id))) {
        refuse(entry.at, "retry " + to_text(id) +
                             " lies on the desk, worked against the clock: 'inkturn mark " + to_text(id) +
                             "' enters its marks");
        return;
    }
    if (!is_left_open(entry, *marks))
        record(entry, candidate, id, *marks, *day);
}

/// `other marks: 2a=4 on file, 2a=3 here`.
std::string marks_that_differ(const Paper& paper, const std::vector<std::size_t>& parts,
                              const std::vector<PartMarks>& on_file,
                              const std::optional<std::vector<PartMarks>>& said) {
    if (!said)
        return "marks for other parts";
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (!same_marks({on_file[i]}, {(*said)[i]})) {
            const std::string part = paper.part(parts[i]).label + "=";
            text.append(text.empty() ? "other marks: " : ", ").append(part).append(to_text(on_file[i]));
            text.append(" on file, ").append(part).append(to_text((*said)[i])).append(" here");
        }
    return text;
}

/// Whether the turn was recorded already: with the same marks it stays, with others there is a problem.
bool RetriedCheck::is_on_file(const RetriedEntry& entry, const SittingRecord& record, const RetryId& id,
                              const RetryMarks& marks, Day day) {
    const auto found =
        std::find_if(record.reattempts.begin(), record.reattempts.end(), [&](const Reattempt& reattempt) {
            return reattempt.question == id.question && reattempt.turn == id.turn;
        });
    if (found == record.reattempts.end())
        return false;
    const Question& question = question_of(*record.paper, *found);
    std::vector<std::size_t> tried;
    std::vector<PartMarks> on_file;
    for (std::size_t i = 0; i < question.parts.size(); ++i)
        if (found->parts[i].is_set()) {
            tried.push_back(question.parts[i]);
            on_file.push_back(found->parts[i]);
        }
    std::optional<std::vector<PartMarks>> said; // nothing: other parts were tried
    try {
        said = marks_from_entries(*record.paper, tried, marks.entries, marks.rest);
    } catch (const Error&) {
    }
    const bool same = said && same_marks(on_file, *said);
    if (same && found->day == day)
        ++retried_.unchanged;
    else
        retried_.problems.add(problem_at(
            entry.at, Error("retry " + to_text(id) + " was recorded on " + iso(found->day) + " with " +
                                (same ? "the same marks, and here it is dated " + iso(day)
                                      : marks_that_differ(*record.paper, tried, on_file, said)),
                            Error::Kind::conflict, Error::Remedy::undo_retry, to_text(id))));
    return true;
}

/// Nothing where there is a problem.
std::optional<RetryMarks> RetriedCheck::marks_of(const RetriedEntry& entry, const Paper& paper,
                                                 const Question& question) {
    RetryMarks marks;
    if (entry.full) {
        marks.rest = Rest::full;
        marks.tried = true;
        return marks;
    }
    const std::size_t problems = retried_.problems.count;
    for (const RetriedMarks& mark : entry.marks)
        take_mark(mark, paper, question, marks);
    if (retried_.problems.count != problems)
        return std::nullopt;
    return marks;
}

void RetriedCheck::take_mark(const RetriedMarks& mark, const Paper& paper, const Question& question,
                             RetryMarks& marks) {
    if (mark.part.empty() && question.parts.size() != 1) {
        refuse(mark.at, "question " + question.label +
                            " has several parts: write which marks are whose, as " +
                            paper.part(question.parts[0]).label + "=3 " +
                            paper.part(question.parts[1]).label + "=2+1");
        return;
    }
    const std::string label = mark.part.empty() ? paper.part(question.parts[0]).label : mark.part;
    const auto position = paper.find_part(label);
    const bool is_of_question = position && std::find(question.parts.begin(), question.parts.end(),
                                                      *position) != question.parts.end();
    if (!is_of_question) {
        refuse(mark.at, "part " + label + " is none that the retry of question " + question.label + " of " +
                            paper.id() + " asks for: correct the label");
        return;
    }
    if (mark.marks.empty()) {
        refuse(mark.at, "no mark for " + label +
                            ", though other parts of the retry have one: write - if it was not attempted, "
                            "not-set if it was left out");
        return;
    }
    if (mark.marks == not_set_word) {
        marks.only = marks.only.value_or(question.parts);
        marks.only->erase(std::remove(marks.only->begin(), marks.only->end(), *position), marks.only->end());
        return;
    }
    try {
        Entry typed{label, mark.marks, {}};
        if (mark.max)
            typed.max = Marks(*mark.max);
        const auto read = marks_from_entries(paper, {*position}, {typed}, std::nullopt);
        marks.tried = marks.tried || read.front().attempted();
        marks.entries.push_back(std::move(typed));
    } catch (const Error& error) {
        retried_.problems.add(problem_at(mark.at, error));
    }
}

/// Where no part was attempted: was it done at all?
bool RetriedCheck::is_left_open(const RetriedEntry& entry, const RetryMarks& marks) {
    if (marks.tried)
        return false;
    retried_.doubts.raise(DoubtKind::nothing_retried,
                          problem_at(entry.at, "candidate " + entry.candidate +
                                                   " attempted no part of this retry: was it done?"));
    if (retried_.doubts.is_otherwise(DoubtKind::nothing_retried))
        return false;
    ++retried_.left_open;
    return true;
}

void RetriedCheck::doubt_if_early(const RetriedEntry& entry, const Candidate& candidate, const RetryId& id,
                                  Day day) {
    const auto window = window_of(candidate, id, options_.file.today);
    if (window && day < window->opens)
        retried_.doubts.raise(DoubtKind::early,
                              problem_at(entry.at, "retry " + to_text(id) + " was done on " + iso(day) +
                                                       ", before its window opens on " + iso(window->opens)));
}

void RetriedCheck::record(const RetriedEntry& entry, Candidate& candidate, const RetryId& id,
                          const RetryMarks& marks, Day day) {
    try {
        Reattempt reattempt =
            take_retry(candidate, id, marks.entries, marks.rest, day, options_.file.today, marks.only);
        doubt_if_early(entry, candidate, id, day);
        SittingRecord& of = *find_record(candidate, id.sitting);
        of.reattempts.push_back(reattempt);
        const bool got = is_got(of, id);
        const Marks missed =
            got ? Marks(0) : missed_in(*of.paper, question_of(*of.paper, reattempt), reattempt).marks;
        retried_.added.push_back({candidate.code, id, std::move(reattempt), got, missed});
    } catch (const StoreError&) {
        throw;
    } catch (const Error& error) {
        if (error.remedy() == Error::Remedy::give_all_marks)
            refuse(entry.at,
                   std::string(error.what()) +
                       ": write them, - where a part was not attempted, or not-set where it was left "
                       "out");
        else
            retried_.problems.add(problem_at(entry.at, error));
    }
}

ClassRetried checked(const Store& store, RetriedFile file, const RetriedOptions& options) {
    ClassRetried retried;
    retried.rows = file.rows;
    retried.repeated = file.repeated;
    retried.columns_ignored = std::move(file.columns_ignored);
    retried.rows_left_out = std::move(file.rows_left_out);
    retried.doubts = std::move(file.doubts);
    retried.problems = std::move(file.problems);
    RetriedCheck check(store, options, retried);
    for (const RetriedEntry& entry : file.entries)
        check.take(entry);
    std::stable_sort(retried.problems.items.begin(), retried.problems.items.end(),
                     [](const Problem& a, const Problem& b) { return a.line < b.line; });
    std::stable_sort(retried.added.begin(), retried.added.end(),
                     [](const RetriedOnce& a, const RetriedOnce& b) { return a.candidate < b.candidate; });
    return retried;
}

} // namespace

ClassRetried read_class_retried(const Store& store, Rows& rows, const RetriedOptions& options) {
    return checked(store, read_retried(rows, options.file), options);
}

ClassRetried read_class_retried(const Store& store, std::string_view lines, const RetriedOptions& options) {
    return checked(store, read_retried_lines(lines, options.file), options);
}

} // namespace inkturn
