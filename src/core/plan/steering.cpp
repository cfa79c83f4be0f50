#include "inkturn/plan/steering.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <array>
#include <tuple>

namespace inkturn {
namespace {

constexpr std::size_t kept_on_restart = 10;
constexpr Days max_days_ahead{366}; ///< of a day that is asked for

/// Work that a day is asked for.
struct Asked {
    std::string what; ///< as messages name it
    Seconds duration;
    bool paper = false;
    std::optional<Day> exam{};
};

void check_day_of(const Asked& asked, const Candidate& candidate, Day wanted, Day today) {
    const std::string which = asked.what + " on " + iso(wanted) + ": ";
    if (wanted < today)
        throw Error(which + "that day has passed; ask for today or a later one", Error::Kind::conflict);
    if (wanted > today + max_days_ahead)
        throw Error(which + "that is more than a year ahead; ask for an earlier day", Error::Kind::conflict);
    if (asked.exam && wanted >= *asked.exam)
        throw Error(which + "its exam is on " + iso(*asked.exam) + "; ask for a day before that",
                    Error::Kind::conflict);
    for (const Exam& exam : candidate.exams)
        if (exam.day == wanted)
            throw Error(which + "'" + exam.title + "' is on that day; ask for another one",
                        Error::Kind::conflict);
}

/// `candidate` has no day for the work that is asked for now.
void check_room(const Asked& asked, const Candidate& candidate, const TimetableRequest& request, Day wanted,
                Day today) {
    const WorkAhead ahead = work_ahead(candidate, request, today);
    Seconds room = candidate.availability.on(wanted);
    if (wanted == today)
        room -= ahead.time.days.front().done;
    for (const WorkPiece& piece : ahead.pieces) {
        if (piece.wish != wanted)
            continue;
        room -= piece.work;
        if (piece.paper && asked.paper)
            throw Error(asked.what + " on " + iso(wanted) +
                            ": another paper was asked for on that day, and one a day is enough; ask for "
                            "another day",
                        Error::Kind::conflict);
    }
    if (asked.duration > room)
        throw Error(asked.what + " on " + iso(wanted) + " takes " + length_text(asked.duration) +
                        ", and the day has " + length_text(std::max(room, Seconds(0))) +
                        " left beside what was done and asked for",
                    Error::Kind::conflict, Error::Remedy::give_day_time, iso(wanted));
}

std::string named(const WorkName& work) {
    return (work.what == WorkPurpose::sit ? "paper " : "topic ") + work.name;
}

template <typename Steered, typename Is>
void clear_wanted(std::vector<Steered>& all, const Is& is) {
    for (Steered& one : all)
        if (is(one))
            one.steering.wanted.reset();
}

std::vector<TopicToRelearn> pieces_of(const Candidate& candidate, const WorkName& work, Day today) {
    std::vector<TopicToRelearn> pieces;
    for (TopicToRelearn& topic :
         topics_that_may_be_relearned(candidate, retries_to_place(candidate, today), today))
        if (topic.subject == work.subject && topic.topic == work.name)
            pieces.push_back(std::move(topic));
    return pieces;
}

std::optional<PaperToSit> paper_to_sit(const Candidate& candidate, const TimetableRequest& request,
                                       const std::string& id, Day today) {
    for (PaperToSit& paper : sittings_ahead(candidate, sittings_of(request), today).papers)
        if (paper.paper && paper.paper->id() == id)
            return std::move(paper);
    return std::nullopt;
}

/// The candidate with a day asked for it, so that a count of papers does not leave it out.
Candidate wanting(Candidate candidate, const WorkName& work, Day day) {
    candidate.steered_work.push_back({work.what, work.subject, work.name, {day, std::nullopt}});
    return candidate;
}

} // namespace

void check_can_be_steered(const Candidate& candidate, const RetryId& id, Day today) {
    check_can_be_taken(candidate, id, today, today);
}

void check_can_be_steered(const Candidate& candidate, const TimetableRequest& request, const WorkName& work,
                          Day today) {
    const Steering steering = steering_of(candidate, work.what, work.subject, work.name);
    if (steering.let_go)
        throw Error(named(work) + " was dropped on " + iso(steering.let_go->day) + " (" +
                        steering.let_go->reason + ")",
                    Error::Kind::conflict,
                    work.what == WorkPurpose::sit ? Error::Remedy::take_back_paper
                                                  : Error::Remedy::take_back_topic,
                    work.name);
    if (work.what == WorkPurpose::relearn) {
        const std::vector<TopicToCheck> checks = topics_to_check(candidate, {}, today);
        const bool is_checked = std::any_of(checks.begin(), checks.end(), [&](const TopicToCheck& check) {
            return check.subject == work.subject && check.topic == work.name;
        });
        if (pieces_of(candidate, work, today).empty() && !is_checked)
            throw Error("topic '" + work.name +
                            "' is not to be relearned or checked: no open retry lost marks on it for "
                            "method, or its hour is done",
                        Error::Kind::not_found);
        return;
    }
    if (request.on_desk.count(work.name) > 0)
        throw Error("paper " + work.name + " has been begun", Error::Kind::conflict,
                    Error::Remedy::see_sitting);
    for (const SittingRecord& record : candidate.sittings)
        if (record.paper->id() == work.name)
            throw Error("paper " + work.name + " was sat on " + iso(record.sitting.day),
                        Error::Kind::conflict);
    if (!paper_to_sit(wanting(candidate, work, today), request, work.name, today))
        throw Error("paper " + work.name + " is not to be sat: the last exam of its subject has come",
                    Error::Kind::conflict);
}

void check_can_be_wanted(const Candidate& candidate, const TimetableRequest& request, const RetryId& id,
                         Day wanted, Day today) {
    check_can_be_steered(candidate, id, today);
    for (const Retry& retry : retries_to_place(candidate, today)) {
        if (retry.id.sitting != id.sitting || retry.id.question != id.question)
            continue;
        const Asked asked{"retry " + to_text(id), retry.allowance, false, retry.exam};
        if (!retry.possible_days)
            throw Error(asked.what + " on " + iso(wanted) + ": no day is left for it before the exam",
                        Error::Kind::conflict);
        check_day_of(asked, candidate, wanted, today);
        Candidate others = candidate;
        clear_wanted(others.steered_retries, [&](const SteeredRetry& one) {
            return one.sitting == id.sitting && one.question == id.question;
        });
        check_room(asked, others, request, wanted, today);
    }
}

void check_can_be_wanted(const Candidate& candidate, const TimetableRequest& request, const WorkName& work,
                         Day wanted, Day today) {
    check_can_be_steered(candidate, request, work, today);
    Asked asked{named(work), Seconds(0)};
    if (work.what == WorkPurpose::sit) {
        const auto paper = paper_to_sit(wanting(candidate, work, today), request, work.name, today);
        asked.duration = paper->piece.work;
        asked.paper = true;
        asked.exam = paper->piece.expected.exam;
    } else {
        for (const TopicToRelearn& piece : pieces_of(candidate, work, today)) {
            asked.duration += TopicToRelearn::time_of_piece;
            asked.exam = piece.exam;
        }
    }
    check_day_of(asked, candidate, wanted, today);
    Candidate others = candidate;
    clear_wanted(others.steered_work, [&](const SteeredWork& one) {
        return one.what == work.what && one.subject == work.subject && one.name == work.name;
    });
    check_room(asked, others, request, wanted, today);
}

AskedAgain asked_again(const Candidate& candidate, const RetryId& id, Day today) {
    check_whole(candidate);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const auto position = record.paper->find_question(id.question);
    if (!position)
        throw Error("paper " + record.paper->id() + " has no question " + id.question + " to retry",
                    Error::Kind::not_found, Error::Remedy::show_paper, record.paper->id());
    const Question& question = record.paper->questions()[*position];
    if (missed_marks(*record.paper, question, record.sitting.parts) == Marks(0))
        throw Error("question " + id.question + " of " + record.paper->id() +
                        " was never missed in this sitting, so there is nothing to bring round again",
                    Error::Kind::not_found);
    if (!is_latest(candidate, record, question))
        throw Error("no retry " + to_text(id) + ": paper " + record.paper->id() +
                        " was sat again later, and that sitting's retries count",
                    Error::Kind::conflict);
    if (const auto open = open_turn(record, question, candidate.wishes.retries))
        throw Error("question " + id.question + " of " + record.paper->id() + " is still open as " +
                        to_text(RetryId{id.sitting, id.question, open->turn}) +
                        "; only a secured one comes round again",
                    Error::Kind::conflict, Error::Remedy::list_retries);
    int last = 0;
    for (const Reattempt& reattempt : record.reattempts)
        if (reattempt.question == id.question)
            last = std::max(last, reattempt.turn);
    if (id.turn > last)
        throw Error("retry " + to_text(id) + " was not recorded; the last one is " +
                        to_text(RetryId{id.sitting, id.question, last}),
                    Error::Kind::not_found);
    return {id.question, last + 1, today};
}

LastDone last_done(const Candidate& candidate, const RetryId& id, Day today) {
    check_whole(candidate);
    const SittingRecord& record = get_sitting(candidate, id.sitting);
    const auto position = record.paper->find_question(id.question);
    const auto open =
        position ? turn_to_follow(record, record.paper->questions()[*position]) : std::optional<OpenTurn>();
    if (open && open->turn == id.turn) {
        const Steering steering = steering_of(candidate, id.sitting, id.question);
        if (steering.let_go)
            return LastDone::let_go;
        if (steering.standing(today))
            return LastDone::wanted;
        if (open->asked_again)
            return LastDone::asked_again;
    }
    check_can_be_undone(candidate, id);
    return LastDone::reattempt;
}

std::vector<Retry> by_worth(std::vector<Retry> retries) {
    const auto worth = [](const Retry& retry) {
        const bool is_asked_for = retry.wanted || retry.asked_again;
        return std::tuple(!is_asked_for, -retry.missed_marks.count(),
                          retry.window ? retry.window->closes : latest_day, retry.dropped_on);
    };
    std::stable_sort(retries.begin(), retries.end(),
                     [&](const Retry& a, const Retry& b) { return worth(a) < worth(b); });
    return retries;
}

std::vector<Retry> late_beyond_ten(const Candidate& candidate, Day today) {
    std::vector<Retry> late;
    for (Retry& retry : retries_to_place(candidate, today))
        if (retry.late)
            late.push_back(std::move(retry));
    late = by_worth(std::move(late));
    late.erase(late.begin(),
               late.begin() + static_cast<std::ptrdiff_t>(std::min(late.size(), kept_on_restart)));
    return late;
}

std::optional<std::vector<Retry>> least_to_let_go(const Candidate& candidate, const TimetableRequest& request,
                                                  Day today) {
    TimetableRequest of_work = request;
    of_work.turns = TurnsReserved::first;
    std::vector<Retry> least;
    for (Retry& retry : by_worth(retries_to_place(candidate, today)))
        if (!retry.wanted && !retry.asked_again && retry.possible_days)
            least.push_back(std::move(retry));
    std::reverse(least.begin(), least.end());
    const auto first = [&](std::size_t count) {
        return std::vector<Retry>(least.begin(), least.begin() + static_cast<std::ptrdiff_t>(count));
    };
    const auto with = [&](std::size_t count) {
        return without(candidate, first(count), {today, std::string(LetGo::no_room)});
    };
    const bool leaves_work = !work_ahead(with(least.size()), of_work, today).pieces.empty();
    const std::size_t most = leaves_work || least.empty() ? least.size() : least.size() - 1;
    for (std::size_t count = 1; count <= std::min(most, max_let_go); ++count)
        if (has_plan(with(count), of_work, today))
            return first(count);
    return std::nullopt;
}

Candidate without(Candidate candidate, const std::vector<Retry>& let_go, const LetGo& why) {
    for (const Retry& retry : let_go)
        candidate.steered_retries.insert(candidate.steered_retries.begin(),
                                         {retry.id.sitting, retry.id.question, {std::nullopt, why}});
    return candidate;
}

} // namespace inkturn
