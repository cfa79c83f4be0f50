#include "inkturn/plan/timetable.hpp"

#include "core/plan/rated_work.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/plan/later_turns.hpp"
#include "inkturn/plan/time_ahead.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <tuple>

namespace inkturn {
namespace {

constexpr Days retries_come_within{35}; ///< of a paper's day

/// The time of sheets that were logged on a day.
Seconds time_recalled(const std::vector<Sheet>& sheets, Day day) {
    Seconds sum{0};
    for (const Sheet& sheet : sheets)
        if (sheet.log && sheet.log->day == day)
            sum += sheet.duration();
    return sum;
}

/// Which of the days on file stay where they can.
enum class Kept : std::uint8_t { all, in_windows, none };

struct Placed {
    Timetable timetable;
    bool any_to_bring_in; ///< less might be outside, or without a day, if what is outside gave up its day
};

/// Gathers the work as pieces, and gives each item the day of its piece.
class TimetableBuilder {
  public:
    TimetableBuilder(const Candidate& candidate, const TimetableRequest& request, Day today, Kept kept)
        : candidate_(candidate),
          request_(request),
          today_(today),
          kept_(kept),
          keep_(kept != Kept::none),
          retries_(retries_to_place(candidate, today)),
          due_(facts_due(request.facts, request.sheets, candidate.exams, today)) {
        timetable_.share = request.share;
        if (!keep_)
            for (Retry& retry : retries_)
                retry.kept_day.reset();
        take(work_to_place(candidate, request, today, std::move(due_), retries_));
        time_ = time_ahead(candidate.availability, candidate.exams,
                           time_worked(candidate, today) + time_recalled(request.sheets, today),
                           {today, last_day()});
        add_topics();
        add_retries();
        add_checks();
        add_facts();
        add_papers();
        if (timetable_.first_things > 0)
            put_first_things_in_order(pieces_, item_of_, timetable_.items);
    }

    WorkAhead work() && { return {std::move(time_), std::move(pieces_)}; }

    Placed placed() && {
        const WorkPlan plan = place_work(time_, pieces_);
        const bool any_to_bring_in = may_bring_in(plan);
        for (std::size_t i = 0; i < pieces_.size(); ++i)
            give(timetable_.items[item_of_[i]], plan.days[i]);
        put_halves_in_order();
        count_sittings();
        reserve(plan.reserved);
        timetable_.fit = plan.fit;
        timetable_.short_by = plan.short_by;
        timetable_.not_placed_time = plan.weight.without_day + plan.weight.unreserved;
        timetable_.outside = plan.weight.outside;
        timetable_.today = today_;
        timetable_.done = time_.days.front().done;
        for (const DayTime& day : time_.days)
            if (!day.exam)
                timetable_.longest_day = std::max(timetable_.longest_day, day.available);
        timetable_.fullest_share = fullest_share();
        timetable_.fullest_share_bound = std::min(plan.fullest_share_bound, timetable_.fullest_share);
        timetable_.evenness = plan.weight.evenness;
        timetable_.evenness_bound = plan.evenness_bound;
        sort();
        return {std::move(timetable_), any_to_bring_in};
    }

  private:
    void take(WorkToPlace work) {
        topics_ = std::move(work.topics);
        checks_ = std::move(work.checks);
        due_ = std::move(work.due);
        papers_ = std::move(work.papers);
        timetable_.subjects = std::move(work.subjects);
        timetable_.by_ratings = request_.ratings;
        timetable_.unchecked = std::move(work.unchecked);
        timetable_.first_things = work.first_things;
    }

    Day last_day() const {
        Day last = today_;
        for (const Retry& retry : retries_)
            last = std::max(last, last_day_looked_at({retry.exam, retry.window, false}, today_));
        for (const TopicToRelearn& topic : topics_)
            last = std::max(last, topic.possible_days.last);
        for (const TopicToCheck& check : checks_)
            last = std::max(last, last_day_looked_at(check.by, today_));
        for (const DueFact& due : due_)
            if (due.possible_days)
                last = std::max(last, due.possible_days->last);
        for (const PaperToSit& paper : papers_)
            for (const DaySpan span : paper.piece.spans)
                last = std::max(last, std::min(span.last + retries_come_within, latest_day));
        for (const SteeredRetry& retry : candidate_.steered_retries)
            last = std::max(last, retry.steering.standing(today_).value_or(last));
        for (const SteeredWork& work : candidate_.steered_work)
            last = std::max(last, work.steering.standing(today_).value_or(last));
        return last;
    }

    /// Over the days before its first retry, then those up to the exam. What was planned for a day before
    /// goes like late work.
    void add_topics() {
        for (const TopicToRelearn& topic : topics_) {
            WorkPiece piece{TopicToRelearn::time_of_piece, {topic.possible_days}};
            const Day last = topic.exam ? *topic.exam - Days{1} : last_of_time();
            if (topic.possible_days.last < last)
                piece.spans.push_back({topic.possible_days.last + Days{1}, last});
            if (keep_)
                piece.kept_day = planned_day(candidate_.planned, WorkPurpose::relearn, topic.subject,
                                             topic.topic, topic.piece);
            piece.wish =
                steering_of(candidate_, WorkPurpose::relearn, topic.subject, topic.topic).standing(today_);
            if (piece.kept_day && !topic.possible_days.contains(*piece.kept_day))
                piece.spans = {{today_, std::max(last, today_)}}; // its retry has moved, or it was not done
            if (piece.kept_day && *piece.kept_day < today_)
                piece.late = Lateness{*piece.kept_day, *piece.kept_day, topic.piece};
            auto& halves = pieces_of_topic_[{topic.subject, topic.topic}];
            if (!halves.empty())
                piece.half_of = halves.front();
            halves.push_back(pieces_.size());
            add(topic, std::move(piece));
        }
    }

    Day first_day_for_half() const {
        const auto found = std::find_if(time_.days.begin(), time_.days.end(), [](const DayTime& day) {
            return !day.exam && day.available - day.done >= TopicToRelearn::time_of_piece;
        });
        return today_ + Days{found - time_.days.begin()};
    }

    /// After the halves of what it was lost for; one that has its day by then only where a half was not done.
    void put_after_halves(WorkPiece& piece, const Retry& retry) const {
        for (const auto& [topic, lost] : lost_for_method(candidate_, retry))
            if (const auto halves = pieces_of_topic_.find({retry.paper->subject(), topic});
                halves != pieces_of_topic_.end())
                piece.after.insert(piece.after.end(), halves->second.begin(), halves->second.end());
        if (!piece.kept_day || *piece.kept_day < today_ || piece.late)
            return;
        if (std::any_of(piece.after.begin(), piece.after.end(),
                        [&](std::size_t half) { return pieces_[half].late.has_value(); }))
            piece.kept_day.reset();
        else
            piece.after.clear();
    }

    void add_retries() {
        for (const Retry& retry : retries_) {
            WorkPiece piece = retry_piece(retry.allowance, {retry.exam, retry.window, false},
                                          retry.dropped_on, static_cast<int>(pieces_.size()), time_);
            if (keeps_day(retry.late))
                piece.kept_day = retry.kept_day;
            piece.wish = retry.wanted;
            const bool has_later_day =
                piece.kept_day && *piece.kept_day > first_day_for_half() && !piece.late;
            if (!has_later_day && !piece.wish && !pieces_of_topic_.empty())
                put_after_halves(piece, retry);
            add(retry, std::move(piece));
        }
    }

    void add_checks() {
        for (const TopicToCheck& check : checks_) {
            WorkPiece piece = retry_piece(TopicToCheck::duration, check.by, check.relearned_on,
                                          static_cast<int>(pieces_.size()), time_);
            if (keep_ && keeps_day(check.late))
                piece.kept_day =
                    planned_day(candidate_.planned, WorkPurpose::check, check.subject, check.topic, 0);
            add(check, std::move(piece));
        }
    }

    /// Facts that have a day are asked together with others of that day.
    void add_facts() {
        const FactDays days = keep_ ? fact_days(candidate_.planned) : FactDays();
        std::map<std::optional<Day>, std::vector<DueFact>> by_day;
        for (const DueFact& one : due_) {
            const auto chosen = days.find(one.fact);
            const bool holds =
                chosen != days.end() && one.possible_days && one.possible_days->contains(chosen->second);
            by_day[holds ? std::optional<Day>(chosen->second) : std::nullopt].push_back(one);
        }
        for (const auto& [day, together] : by_day)
            for (const RecallGroup& group : recall_groups(request_.facts, together))
                add_facts_of(group, day);
    }

    void add_facts_of(const RecallGroup& group, std::optional<Day> kept_day) {
        WorkPiece piece{group.duration, {group.possible_days}};
        const Day last = group.exam ? std::min(*group.exam - Days{1}, last_of_time()) : last_of_time();
        if (group.late) {
            piece.spans = {{today_, last}};
            piece.late = Lateness{group.window->closes, group.window->closes, 0};
        } else if (group.possible_days.last < last) {
            piece.spans.push_back({group.possible_days.last + Days{1}, last});
        }
        if (keeps_day(group.late))
            piece.kept_day = kept_day;
        add(group, std::move(piece));
    }

    /// Of a subject each comes after the one before it.
    void add_papers() {
        std::map<std::string, std::size_t> before;
        for (const PaperToSit& paper : papers_) {
            WorkPiece piece = paper.piece;
            if (!keep_)
                piece.kept_day.reset();
            if (!piece.wish) { // one that was asked for comes on its own day
                const auto [found, is_first] = before.try_emplace(paper.subject, pieces_.size());
                if (!is_first)
                    piece.after = {found->second};
                found->second = pieces_.size();
            }
            add(paper, std::move(piece));
        }
    }

    /// Late work keeps the day that was chosen today; on each later day it comes in its order again.
    bool keeps_day(bool late) const { return !late || candidate_.planned_for == today_; }

    Day last_of_time() const { return today_ + Days{time_.days.size()} - Days{1}; }

    /// Without a day that is left it is no piece.
    void add(WorkItem::Work work, WorkPiece piece) {
        std::optional<DaySpan> possible_days;
        if (!piece.spans.empty())
            possible_days = piece.spans.front();
        timetable_.items.push_back({std::move(work), piece.work, possible_days, std::nullopt});
        if (!possible_days)
            return;
        if (kept_ == Kept::in_windows && piece.kept_day && !piece.late &&
            !possible_days->contains(*piece.kept_day))
            piece.kept_day.reset();
        if (piece.wish && time_.days[offset_of(*piece.wish)].exam)
            piece.wish.reset(); // no work on an exam's day, though one was entered since
        item_of_.push_back(timetable_.items.size() - 1);
        pieces_.push_back(std::move(piece));
    }

    static void give(WorkItem& item, std::optional<Day> day) {
        item.day = day;
        if (day)
            item.possible_days = {std::min(item.possible_days->first, *day),
                                  std::max(item.possible_days->last, *day)};
        if (auto* retry = std::get_if<Retry>(&item.work))
            give_day(*retry, day);
    }

    /// Where all have a day, only what would find room in its window beside the rest can come in.
    bool may_bring_in(const WorkPlan& plan) const {
        std::vector<std::size_t> outside;
        std::vector<Seconds> loads;
        for (const DayTime& day : time_.days)
            loads.push_back(day.done);
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            const auto day = plan.days[i];
            if (day && !pieces_[i].late && !pieces_[i].spans.front().contains(*day))
                outside.push_back(i);
            else if (day)
                loads[offset_of(*day)] += pieces_[i].work;
        }
        if (plan.weight.without_day + plan.weight.unreserved > Seconds(0))
            return !outside.empty();
        return std::any_of(outside.begin(), outside.end(), [&](std::size_t i) {
            const DaySpan window = pieces_[i].spans.front();
            for (Day day = window.first; day <= window.last; day += Days{1})
                if (loads[offset_of(day)] + pieces_[i].work <= time_.days[offset_of(day)].available)
                    return true;
            return false;
        });
    }

    std::size_t offset_of(Day day) const { return static_cast<std::size_t>((day - today_).count()); }

    /// The halves of a topic follow each other in the list.
    void put_halves_in_order() {
        for (std::size_t i = 1; i < timetable_.items.size(); ++i) {
            WorkItem& before = timetable_.items[i - 1];
            WorkItem& after = timetable_.items[i];
            const auto* one = std::get_if<TopicToRelearn>(&before.work);
            const auto* next = std::get_if<TopicToRelearn>(&after.work);
            if (one && next && one->subject == next->subject && one->topic == next->topic && after.day &&
                (!before.day || *before.day > *after.day))
                swap_days(before, after);
        }
    }

    static void swap_days(WorkItem& a, WorkItem& b) {
        std::swap(a.day, b.day);
        std::swap(a.possible_days, b.possible_days);
    }

    void count_sittings() {
        for (const WorkItem& item : timetable_.items) {
            const auto* paper = std::get_if<PaperToSit>(&item.work);
            if (!paper)
                continue;
            SubjectAhead& subject =
                *std::find_if(timetable_.subjects.begin(), timetable_.subjects.end(),
                              [&](const SubjectAhead& one) { return one.subject == paper->subject; });
            if (!item.day)
                subject.without_day.push_back(name_of(*paper));
            else if (paper->last_useful && *item.day > *paper->last_useful)
                ++subject.too_late;
        }
    }

    void reserve(const std::vector<Reserved>& reserved) {
        for (const Reserved& room : reserved) {
            timetable_.expected += room.work;
            if (!room.day)
                continue;
            const auto& paper = std::get<PaperToSit>(timetable_.items[item_of_[room.paper]].work);
            timetable_.reservations.push_back(
                {paper.subject, paper.paper ? paper.paper->id() : std::string(), *room.day, room.work});
        }
        std::stable_sort(timetable_.reservations.begin(), timetable_.reservations.end(),
                         [](const Reservation& a, const Reservation& b) { return a.day < b.day; });
    }

    /// Of the days with work to come; what was done today alone may be more than the day has.
    double fullest_share() const {
        std::map<Day, Seconds> loads;
        for (const WorkItem& item : timetable_.items)
            if (item.day)
                loads[*item.day] += item.duration;
        for (const Reservation& room : timetable_.reservations)
            loads[room.day] += room.duration;
        if (const auto now = loads.find(today_); now != loads.end())
            now->second += timetable_.done;
        double fullest = 0;
        for (const auto& [day, load] : loads) {
            const Seconds available = time_.days[offset_of(day)].available;
            if (available > Seconds(0))
                fullest = std::max(fullest, static_cast<double>(load.count()) /
                                                static_cast<double>(available.count()));
        }
        return fullest;
    }

    /// Retries of a day in the order in which they were dropped.
    void sort() {
        std::map<SittingId, std::size_t> sittings;
        for (const SittingRecord& record : candidate_.sittings)
            sittings.emplace(record.id, sittings.size());
        using Place = std::tuple<bool, std::optional<Day>, WorkKind, std::size_t, std::size_t, std::size_t>;
        std::vector<Place> places; // the last is the item's own, so that equal ones keep their order
        for (std::size_t i = 0; i < timetable_.items.size(); ++i) {
            const WorkItem& item = timetable_.items[i];
            const auto* retry = std::get_if<Retry>(&item.work);
            places.emplace_back(!item.day, item.day, item.kind(), retry ? sittings.at(retry->id.sitting) : 0,
                                retry ? retry->question : 0, i);
        }
        std::sort(places.begin(), places.end());
        std::vector<WorkItem> sorted;
        sorted.reserve(places.size());
        for (const Place& place : places)
            sorted.push_back(std::move(timetable_.items[std::get<5>(place)]));
        timetable_.items = std::move(sorted);
    }

    const Candidate& candidate_;
    const TimetableRequest& request_;
    Day today_;
    Kept kept_;
    bool keep_;
    std::vector<Retry> retries_;
    std::vector<TopicToRelearn> topics_;
    std::vector<TopicToCheck> checks_;
    std::vector<DueFact> due_;
    std::vector<PaperToSit> papers_;
    TimeAhead time_;
    Timetable timetable_;
    std::vector<WorkPiece> pieces_;
    std::vector<std::size_t> item_of_; ///< the item of each piece
    std::map<std::pair<std::string, std::string>, std::vector<std::size_t>> pieces_of_topic_;
};

/// Windows may have moved since a day was kept, and there may be room in them now: work outside its window
/// gives up its day where less is outside then. Until nothing moves any more, so that the next plan leaves it
/// alone.
Timetable brought_inside(const Candidate& candidate, const TimetableRequest& request, Day today,
                         Placed made) {
    constexpr int max_rounds = 4;
    for (int round = 0; round < max_rounds && made.any_to_bring_in; ++round) {
        Timetable& here = made.timetable;
        const Candidate kept = with_days_of(here, candidate);
        Placed inside = TimetableBuilder(kept, request, today, Kept::in_windows).placed();
        Timetable& there = inside.timetable;
        if (std::tie(here.not_placed_time, here.outside) <= std::tie(there.not_placed_time, there.outside))
            break;
        there.short_by = here.short_by;
        if (there.fit != PlanFit::fits)
            there.fit = here.fit;
        made = std::move(inside);
    }
    return std::move(made.timetable);
}

Timetable made_once(const Candidate& candidate, const TimetableRequest& request, Day today) {
    const bool keeps = request.mode == PlacementMode::keep;
    Timetable made =
        brought_inside(candidate, request, today,
                       TimetableBuilder(candidate, request, today, keeps ? Kept::all : Kept::none).placed());
    if (keeps && made.fit != PlanFit::fits) {
        Timetable anew = brought_inside(candidate, request, today,
                                        TimetableBuilder(candidate, request, today, Kept::none).placed());
        made.short_by = anew.short_by;
        if (anew.fit != PlanFit::fits)
            made.fit = anew.fit;
        if (anew.not_placed_time < made.not_placed_time)
            made = std::move(anew);
    }
    compare_with_file(candidate, made);
    return made;
}

bool any_moved(const Timetable& timetable) {
    return std::any_of(timetable.items.begin(), timetable.items.end(), [](const WorkItem& item) {
        const auto* retry = std::get_if<Retry>(&item.work);
        return retry && retry->day_is_new;
    });
}

/// Late retries come beside what has its day, and where time is short all may be placed anew: planned from
/// its own days such a plan may change once more.
bool may_move_again(const Timetable& timetable) {
    return std::any_of(timetable.items.begin(), timetable.items.end(), [&](const WorkItem& item) {
        const auto* retry = std::get_if<Retry>(&item.work);
        return retry && retry->day_is_new && (retry->late || timetable.fit != PlanFit::fits);
    });
}

/// With room for first turns alone.
Timetable settled(const Candidate& candidate, TimetableRequest from_its_days, Day today) {
    constexpr int max_rounds = 4;
    Timetable made = made_once(candidate, from_its_days, today);
    if (!may_move_again(made))
        return made;
    from_its_days.mode = PlacementMode::keep;
    for (int round = 0; round < max_rounds && may_move_again(made); ++round) {
        const Candidate kept = with_days_of(made, candidate);
        Timetable next = made_once(kept, from_its_days, today);
        const bool is_settled = !any_moved(next);
        made = std::move(next);
        if (is_settled)
            break;
    }
    compare_with_file(candidate, made);
    return made;
}

} // namespace

Timetable timetable(const Candidate& candidate, const TimetableRequest& request, Day today) {
    Timetable made = settled(candidate, with_weak_topics(request, candidate), today);
    if (request.turns == TurnsReserved::all)
        reserve_later_turns(candidate, made);
    return made;
}

WorkAhead work_ahead(const Candidate& candidate, const TimetableRequest& request, Day today) {
    return TimetableBuilder(candidate, request, today,
                            request.mode == PlacementMode::keep ? Kept::all : Kept::none)
        .work();
}

} // namespace inkturn
