#include "cli/student/retry_steering.hpp"

#include "cli/student/retry_outcome.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "exchange/json/retry.hpp"
#include "inkturn/plan/steering.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/steering.hpp"
#include "view/text/retries.hpp"
#include "view/text/steering.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

/// A change of one retry, and the plan after it.
class RetryChange {
  public:
    RetryChange(const Context& context, const RetryId& id)
        : context_(context),
          id_(id),
          store_(context.store_to_write()),
          change_(store_),
          today_(context.date_today()) {
        days_before_ = context.candidate_of(store_, id.sitting);
        keep_days_passed(change_, days_before_.code, today_);
        before_ = context.candidate_of(store_, id.sitting);
    }

    const Candidate& before() const { return before_; }
    Day today() const { return today_; }
    Store::Change& change() { return change_; }
    TimetableRequest request() { return timetable_on_file(store_, before_, today_).request; }

    void steer(const Steering& steering) {
        SteeringOnFile(change_).steer({id_.sitting, id_.question, steering});
    }
    Steering steering() const { return steering_of(before_, id_.sitting, id_.question); }

    /// What was done today and is undone stays for today, in its window, where there is room.
    void remove_reattempt() {
        const std::vector<Reattempt>& done = get_sitting(before_, id_.sitting).reattempts;
        const bool is_of_today = std::any_of(done.begin(), done.end(), [&](const Reattempt& one) {
            return one.question == id_.question && one.turn == id_.turn && one.day == today_;
        });
        change_.remove_reattempt(id_);
        const auto window = window_of(store_.candidate(before_.code), id_, today_);
        if (is_of_today && window && window->opens <= today_ && today_ <= window->closes)
            change_.keep_day({id_.sitting, id_.question, today_});
    }

    /// Stores it; the retry of the question with its day.
    std::optional<Retry> kept() {
        kept_ = keep_timetable(change_, store_.candidate(before_.code), today_, days_before_);
        change_.commit();
        kept_.moved = beside(std::move(kept_.moved), id_);
        return open_retry(kept_.retries, id_);
    }

    /// A sentence, and where to look next.
    void answer(RetryDone done, const std::optional<Retry>& next, const std::string& said,
                const std::string& look) const {
        context_.answer(
            [&] { return json_of_done(id_, done, next); },
            [&] { context_.out << text_line(said) << changes_text(kept_.moved) << context_.next(look); });
    }

  private:
    const Context& context_;
    RetryId id_;
    Store store_;
    Store::Change change_;
    Day today_;
    Candidate days_before_; ///< as on file
    Candidate before_;
    KeptTimetable kept_;
};

std::string on_its_day(const Retry& retry) {
    return retry.day ? "on " + day_text(*retry.day) : "without a day: none is left or has room";
}

void undo_reattempt(const Context& context, const RetryId& id, RetryChange& change) {
    change.remove_reattempt();
    const auto open = change.kept();
    context.answer([&] { return json_of_undone(id, open); },
                   [&] {
                       context.out << "Undone: " << to_text(id)
                                   << (open ? " is open again" : " was taken off file");
                       if (open && open->day)
                           context.out << ", on " << day_text(*open->day);
                       context.out << ".\n" << context.next("today");
                   });
}

} // namespace

void ask_for_day(const Context& context, const RetryId& id, const std::string& day) {
    RetryChange change(context, id);
    const Day wanted = parse_day(day, change.today());
    check_can_be_wanted(change.before(), change.request(), id, wanted, change.today());
    change.steer({wanted, std::nullopt});
    const auto retry = change.kept();
    std::string said = to_text(id) + " is " + on_its_day(*retry);
    if (retry->day == wanted)
        said += ", as you asked";
    if (retry->outside_window)
        said +=
            ", outside its window (" + day_text(DaySpan{retry->window->opens, retry->window->closes}) + ")";
    change.answer(RetryDone::wanted, retry, said + ".", "plan");
}

void drop_retry(const Context& context, const RetryId& id, const std::string& reason) {
    RetryChange change(context, id);
    check_can_be_steered(change.before(), id, change.today());
    change.steer({change.steering().wanted, LetGo{change.today(), reason}});
    change.kept();
    change.answer(RetryDone::let_go, std::nullopt, to_text(id) + " is dropped: " + visible(reason) + ".",
                  "plan" + context.same_candidate() + "\nor, to take it back: inkturn retry " + to_text(id) +
                      " --undo");
}

void ask_again(const Context& context, const RetryId& id) {
    RetryChange change(context, id);
    const AskedAgain again = asked_again(change.before(), id, change.today());
    SteeringOnFile(change.change()).ask_again(id.sitting, again);
    const auto retry = change.kept();
    std::string said = "Question " + id.question + " comes round once more as " +
                       to_text(RetryId{id.sitting, id.question, again.turn}) + ", ";
    said += retry ? on_its_day(*retry) : "once an exam is ahead";
    if (retry && retry->window)
        said += " (window " + day_text(DaySpan{retry->window->opens, retry->window->closes}) + ")";
    change.answer(RetryDone::asked_again, retry, said + ".", "plan");
}

void undo_retry(const Context& context, const RetryId& id) {
    RetryChange change(context, id);
    const std::string named = to_text(id);
    switch (last_done(change.before(), id, change.today())) {
    case LastDone::let_go: {
        change.steer({change.steering().standing(change.today()), std::nullopt});
        const auto retry = change.kept();
        change.answer(RetryDone::let_go_undone, retry,
                      "Undone: " + named + " is no longer dropped" +
                          (retry ? "; it is " + on_its_day(*retry) : std::string()) + ".",
                      "plan");
        break;
    }
    case LastDone::wanted: {
        const Day wanted = *change.steering().wanted;
        change.steer({});
        const auto retry = change.kept();
        change.answer(RetryDone::wanted_undone, retry,
                      "Undone: " + named + " is no longer asked for on " + day_text(wanted) + "; it is " +
                          on_its_day(*retry) + ".",
                      "plan");
        break;
    }
    case LastDone::asked_again:
        SteeringOnFile(change.change()).take_back_turn(id);
        change.kept();
        change.answer(RetryDone::asked_again_undone, std::nullopt,
                      "Undone: question " + id.question + " stays secured, and " + named +
                          " does not come round.",
                      "plan");
        break;
    case LastDone::reattempt:
        undo_reattempt(context, id, change);
        break;
    }
}

} // namespace inkturn
