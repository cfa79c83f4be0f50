#include "exchange/document/merge.hpp"

#include "exchange/document/absences.hpp"
#include "exchange/document/awards.hpp"
#include "exchange/document/bank.hpp"
#include "exchange/document/closed_classes.hpp"
#include "exchange/document/complete.hpp"
#include "exchange/document/copies.hpp"
#include "exchange/document/difference.hpp"
#include "exchange/document/exams.hpp"
#include "exchange/document/facts.hpp"
#include "exchange/document/lessons.hpp"
#include "exchange/document/plan.hpp"
#include "exchange/document/ratings.hpp"
#include "exchange/document/scripts.hpp"
#include "exchange/document/steering.hpp"
#include "exchange/document/times.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/question_bank.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace inkturn {
namespace {

constexpr const char* can_be_replaced = "; --replace takes the file's";

/// The turn of a question that may follow; 0 if none may.
int turn_open(const SittingRecord& record, const Question& question) {
    const auto open = turn_to_follow(record, question);
    return open ? open->turn : 0;
}

/// The days kept for a candidate's retries. The candidate must outlive it.
class KeptDays {
  public:
    explicit KeptDays(const Candidate& candidate) {
        for (const Placement& placement : candidate.placements)
            days_[{placement.sitting, placement.question}] = placement.day;
    }

    std::optional<Day> of(const SittingRecord& record, const Question& question) const {
        const auto found = days_.find({record.id, question.label});
        if (found == days_.end())
            return std::nullopt;
        return found->second;
    }

  private:
    std::map<std::pair<SittingId, std::string_view>, Day> days_;
};

const Reattempt* find_reattempt(const SittingRecord& record, std::string_view question, int turn) {
    const auto found =
        std::find_if(record.reattempts.begin(), record.reattempts.end(), [&](const Reattempt& other) {
            return other.question == question && other.turn == turn;
        });
    return found == record.reattempts.end() ? nullptr : &*found;
}

/// Merges a sitting of the document into the same one on file.
class SittingMerge {
  public:
    SittingMerge(const std::string& code, const SittingRecord& here, const SittingRecord& in_file,
                 const MergeOptions& options, Merge& merge)
        : where_("candidate " + code + ", " + here.paper->id() + " of " + iso(here.sitting.day) + ": "),
          paper_(*here.paper),
          here_(here),
          in_file_(in_file),
          options_(options),
          merge_(merge),
          merged_(here) {
        new_turns_ = add_turns_asked(in_file, merged_);
    }

    void meet() {
        take_marks();
        for (const Reattempt& reattempt : in_file_.reattempts)
            take_reattempt(reattempt);
        if (!marks_refused_)
            check_turns();
    }

    /// Nothing if there is a conflict: then nothing is stored.
    void put_into(Store::Change& change) const {
        if (!merge_.conflicts.empty())
            return;
        if (marks_replaced_ || completed_)
            change.change_sitting(here_.id, merged_.sitting);
        store_turns(change, here_.id, new_turns_);
        merge_.turns_asked_added += new_turns_.size();
        for (const std::string_view question : changed_) {
            for (auto last = here_.reattempts.rbegin(); last != here_.reattempts.rend(); ++last)
                if (last->question == question)
                    change.remove_reattempt({here_.id, last->question, last->turn});
            for (const Reattempt& reattempt : merged_.reattempts)
                if (reattempt.question == question)
                    change.add_reattempt(here_.id, reattempt);
        }
    }

    /// A day on file for the open turn stays; if there is none, the document's is taken.
    void choose_days(Store::Change& change, const KeptDays& here, const KeptDays& in_file) const {
        for (const Question& question : paper_.questions()) {
            const auto day_here = here.of(here_, question);
            const auto day_in_file = in_file.of(in_file_, question);
            const int open = day_here || day_in_file ? turn_open(merged_, question) : 0;
            if (open == 0)
                continue;
            if (day_here && turn_open(here_, question) == open) {
                if (changed_.count(question.label) > 0) // its day went with the re-attempts
                    change.keep_day({here_.id, question.label, *day_here});
            } else if (day_in_file && turn_open(in_file_, question) == open) {
                change.keep_day({here_.id, question.label, *day_in_file});
                ++merge_.kept_days_added;
            }
        }
    }

  private:
    void refuse(const std::string& why) const { merge_.refuse(where_ + why); }
    void refuse(const Error& why) const { merge_.conflicts.push_back(why.within(where_)); }

    void take_marks() {
        const auto differs = difference(paper_, here_.sitting, in_file_.sitting);
        if (!differs) {
            completed_ = complete(merged_.sitting, in_file_.sitting);
            ++(completed_ ? merge_.sittings_completed : merge_.sittings_unchanged);
            return;
        }
        marks_refused_ = true;
        if (!options_.replace) {
            refuse(*differs + can_be_replaced);
            return;
        }
        try {
            check_can_replace(paper_, in_file_.sitting, here_, options_.today);
        } catch (const Error& error) {
            refuse(error);
            return;
        }
        marks_refused_ = false;
        marks_replaced_ = true;
        merged_.sitting = in_file_.sitting;
        complete(merged_.sitting, here_.sitting);
        ++merge_.sittings_replaced;
    }

    void take_reattempt(const Reattempt& in_file) {
        const auto here =
            std::find_if(merged_.reattempts.begin(), merged_.reattempts.end(), [&](const Reattempt& other) {
                return other.question == in_file.question && other.turn == in_file.turn;
            });
        if (here == merged_.reattempts.end()) {
            merged_.reattempts.push_back(in_file);
            changed_.insert(in_file.question);
            ++merge_.reattempts_added;
            return;
        }
        const Question& question = paper_.questions()[*paper_.find_question(in_file.question)];
        const auto differs = difference(paper_, question, *here, in_file);
        if (!differs) {
            const bool completed = complete(*here, in_file);
            if (completed)
                changed_.insert(in_file.question);
            ++(completed ? merge_.reattempts_completed : merge_.reattempts_unchanged);
        } else if (options_.replace) {
            Reattempt replaced = in_file;
            complete(replaced, *here);
            *here = std::move(replaced);
            changed_.insert(in_file.question);
            ++merge_.reattempts_replaced;
        } else {
            refuse("question " + question.label + ", turn " + std::to_string(in_file.turn) + ": " + *differs +
                   can_be_replaced);
        }
    }

    /// Whether what is on file and what the document adds make one history.
    void check_turns() const {
        if (!marks_replaced_ && changed_.empty())
            return;
        for (const Question& question : paper_.questions()) {
            std::vector<Reattempt> earlier;
            try {
                for (const Reattempt& reattempt : merged_.reattempts) {
                    if (reattempt.question != question.label)
                        continue;
                    check_follows(paper_, question, merged_.sitting, earlier, merged_.asked_again, reattempt);
                    earlier.push_back(reattempt);
                }
            } catch (const Error& error) {
                refuse(error.within("what is here and what is in the file don't fit together; correct one of "
                                    "the two: "));
            }
        }
    }

    std::string where_;
    const Paper& paper_;
    const SittingRecord& here_;
    const SittingRecord& in_file_;
    const MergeOptions& options_;
    Merge& merge_;
    SittingRecord merged_;
    std::vector<AskedAgain> new_turns_; ///< asked for in the document alone
    bool marks_refused_ = false;
    bool marks_replaced_ = false;
    bool completed_ = false;
    std::set<std::string_view> changed_; ///< questions whose re-attempts are not those on file
};

/// Merges a candidate of the document into what is on file about them.
class CandidateMerge {
  public:
    CandidateMerge(Store::Change& change, const Candidate& here, const Candidate& in_file,
                   const MergeOptions& options, Merge& merge)
        : change_(change),
          store_(change.store()),
          here_(here),
          options_(options),
          merge_(merge),
          desk_(change, here.code, options, merge),
          days_here_(here),
          days_in_file_(in_file) {
        for (const SittingRecord& record : here.sittings)
            sittings_here_[{record.paper->id(), record.sitting.day}] = &record;
    }

    void take(const SittingRecord& in_file) {
        const auto here = sittings_here_.find({in_file.paper->id(), in_file.sitting.day});
        if (here == sittings_here_.end()) {
            ids_here_[in_file.id] = add(in_file);
            return;
        }
        const SittingRecord& record = *here->second;
        ids_here_[in_file.id] = record.id;
        SittingMerge sitting(here_.code, record, in_file, options_, merge_);
        sitting.meet();
        sitting.put_into(change_);
        sitting.choose_days(change_, days_here_, days_in_file_);
        for (const Reattempt& reattempt : in_file.reattempts)
            if (!find_reattempt(record, reattempt.question, reattempt.turn))
                desk_.was_recorded({record.id, reattempt.question, reattempt.turn}, reattempt);
    }

    /// Comes last.
    void take(const std::vector<Script>& in_file) {
        if (in_file.empty())
            return;
        const Candidate merged = store_.candidate(here_.code);
        for (Script script : in_file) {
            if (script.id.retry)
                script.id = script_id(RetryId{ids_here_.at(script.id.sitting), script.id.retry->question,
                                              script.id.retry->turn});
            const bool is_done = script.id.retry ? is_recorded(merged, *script.id.retry)
                                                 : is_sat(merged, script.paper->id(), script.day);
            desk_.take(std::move(script), is_done);
        }
    }

    void take(const StatedTimes& in_file) {
        const auto differs = difference(here_.own_times, in_file);
        if (!differs || in_file.is_empty())
            return;
        const bool is_new = here_.own_times.is_empty();
        if (!is_new && !options_.replaces_plan()) {
            merge_.refuse("candidate " + here_.code + ": " + *differs + can_be_replaced);
            return;
        }
        change_.set_times(here_.code, in_file);
        ++(is_new ? merge_.availabilities_added : merge_.availabilities_replaced);
    }

  private:
    static bool is_recorded(const Candidate& merged, const RetryId& id) {
        return find_reattempt(get_sitting(merged, id.sitting), id.question, id.turn) != nullptr;
    }

    static bool is_sat(const Candidate& merged, const std::string& paper, Day day) {
        return std::any_of(merged.sittings.begin(), merged.sittings.end(), [&](const SittingRecord& record) {
            return record.paper->id() == paper && record.sitting.day == day;
        });
    }

    SittingId add(const SittingRecord& in_file) {
        const SittingId id = desk_.add(*in_file.paper, in_file.sitting);
        ++merge_.sittings_added;
        store_turns(change_, id, in_file.asked_again);
        merge_.turns_asked_added += in_file.asked_again.size();
        for (const Reattempt& reattempt : in_file.reattempts)
            change_.add_reattempt(id, reattempt);
        merge_.reattempts_added += in_file.reattempts.size();
        for (const Question& question : in_file.paper->questions()) {
            const auto day = days_in_file_.of(in_file, question);
            if (!day)
                continue;
            change_.keep_day({id, question.label, *day});
            ++merge_.kept_days_added;
        }
        return id;
    }

    Store::Change& change_;
    const Store& store_;
    const Candidate& here_;
    const MergeOptions& options_;
    Merge& merge_;
    DeskMerge desk_;
    KeptDays days_here_;
    KeptDays days_in_file_;
    std::map<std::pair<std::string_view, Day>, const SittingRecord*> sittings_here_;
    std::map<SittingId, SittingId> ids_here_; ///< by the document's
};

class DocumentMerge {
  public:
    DocumentMerge(Store::Change& change, const Document& document, const MergeOptions& options)
        : change_(change),
          store_(change.store()),
          document_(document),
          options_(options),
          facts_(change, options, merge_) {}

    Merge run(const HowFar& told) {
        check_as();
        for (const auto& paper : document_.papers)
            take_paper(*paper);
        note_copies(change_, document_.copies);
        for (const std::string& name : document_.classes)
            take_class(name);
        take_exams(change_, document_, options_, merge_);
        take_class_times(change_, document_, options_, merge_);
        take_awards(change_, document_, options_, merge_);
        take_boundaries(change_, document_, options_, merge_);
        facts_.take(document_.facts);
        std::size_t taken = 0;
        for (const ExportedCandidate& candidate : document_.candidates) {
            take_candidate(candidate);
            tell(told, ++taken, document_.candidates.size());
        }
        take_lessons(change_, document_, options_, merge_);
        take_closed_classes(change_, document_, merge_);
        if (merge_.conflicts.empty())
            take_bank(change_, document_, options_, merge_);
        return std::move(merge_);
    }

  private:
    void check_as() const {
        if (!options_.as)
            return;
        if (document_.candidates.size() != 1)
            throw Error("the file has " + std::to_string(document_.candidates.size()) +
                        " candidates, so it can't be read as " + *options_.as +
                        ": that needs an export of one candidate");
    }

    /// What one of the two states and the other leaves open is not a conflict: it is taken.
    void take_paper(const Paper& paper) {
        const auto on_file = store_.find_paper(paper.id());
        if (!on_file) {
            change_.add_paper(paper);
            QuestionBank(change_).set_added(paper.id(), options_.today);
            ++merge_.papers_added;
            return;
        }
        const Paper whole = completed(*on_file, paper);
        if (const auto differs = difference(whole, completed(paper, *on_file))) {
            merge_.refuse("paper " + paper.id() + ": " + *differs +
                          "; a paper is never replaced: correct one of the two, or, if they are two papers, "
                          "give one another id with 'inkturn paper amend " +
                          paper.id() + " --id NEW'");
            other_papers_.insert(paper.id());
        } else if (difference(*on_file, whole)) {
            change_.complete_paper(whole);
            ++merge_.papers_completed;
        } else {
            ++merge_.papers_unchanged;
        }
    }

    void take_class(const std::string& name) {
        if (store_.has_class(name))
            return;
        change_.add_class(name);
        ++merge_.classes_added;
    }

    void take_candidate(const ExportedCandidate& in_file) {
        const std::string& code = options_.as ? *options_.as : in_file.candidate.code;
        const bool is_new = !store_.has_candidate(code);
        Candidate here;
        here.code = code;
        if (!is_new)
            here = store_.candidate(code);

        CandidateMerge candidate(change_, here, in_file.candidate, options_, merge_);
        for (const SittingRecord& sitting : in_file.candidate.sittings)
            if (other_papers_.count(sitting.paper->id()) == 0)
                candidate.take(sitting);
        candidate.take(in_file.candidate.own_times);
        take_plan(change_, here, in_file.candidate, options_, merge_);
        take_ratings(change_, code, in_file.ratings, options_, merge_);
        candidate.take(scripts_of(in_file));
        facts_.take(code, in_file.sheets);
        for (const std::string& name : in_file.classes)
            merge_.members_added += change_.add_member(name, code);
        take_sitting_classes(code, in_file);
        for (const Absence& absence : in_file.absences)
            if (other_papers_.count(absence.paper) == 0)
                take_absence(change_, code, absence, merge_);
        merge_.candidates_added += is_new && store_.has_candidate(code);
    }

    /// For which classes the sittings were imported, those of papers in conflict left out.
    void take_sitting_classes(const std::string& code, const ExportedCandidate& in_file) {
        if (in_file.sitting_classes.empty())
            return;
        const Candidate merged = store_.candidate(code);
        for (const auto& [id, classes] : in_file.sitting_classes) {
            const SittingRecord& there = get_sitting(in_file.candidate, id);
            for (const SittingRecord& here : merged.sittings)
                if (here.sitting.day == there.sitting.day && here.paper->id() == there.paper->id())
                    for (const std::string& name : classes)
                        change_.keep_for_class(name, here.id);
        }
    }

    /// Those whose papers are not in conflict.
    std::vector<Script> scripts_of(const ExportedCandidate& in_file) const {
        std::vector<Script> scripts;
        for (const Script& script : in_file.scripts)
            if (other_papers_.count(script.paper->id()) == 0)
                scripts.push_back(script);
        return scripts;
    }

    Store::Change& change_;
    const Store& store_;
    const Document& document_;
    const MergeOptions& options_;
    Merge merge_;
    FactsMerge facts_;
    std::set<std::string> other_papers_; ///< ids of those that are in conflict
};

} // namespace

Merge merge(Store::Change& change, const Document& document, const MergeOptions& options,
            const HowFar& told) {
    return DocumentMerge(change, document, options).run(told);
}

} // namespace inkturn
