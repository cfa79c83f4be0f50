#include "inkturn/plan/later_turns.hpp"

#include "core/plan/board.hpp"
#include "core/plan/evenness.hpp"
#include "core/plan/exact.hpp"
#include "core/plan/fitter.hpp"
#include "core/plan/mend.hpp"
#include "inkturn/plan/time_ahead.hpp"
#include "inkturn/plan/timetable.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <string>
#include <tuple>
#include <variant>

namespace inkturn {
namespace {

constexpr int max_later_turns = 4;
constexpr Seconds least_expected{60}; ///< at a turn
constexpr Days after_window{56};      ///< past it, for a day that has room
constexpr std::size_t max_exact_rooms = 9;
constexpr double max_exact_room_steps = 2e5;

/// Of what comes back of retries that may be done on these days. Nothing: the exam leaves none a day.
std::optional<DaySpan> next_window(DaySpan done, std::optional<Day> exam) {
    const auto earliest = retry_window(done.first, exam);
    if (!earliest)
        return std::nullopt;
    const auto latest = retry_window(done.last, exam);
    return DaySpan{earliest->opens, std::max(latest ? latest->closes : done.last, earliest->closes)};
}

std::vector<DaySpan> spans_from(DaySpan window, std::optional<Day> exam) {
    const Day end = std::min(window.last + after_window, exam ? *exam - Days{1} : latest_day);
    std::vector<DaySpan> spans{window};
    if (window.last < end)
        spans.push_back({window.last + Days{1}, end});
    return spans;
}

/// How many of the length of those of a turn, to the nearest, one at least.
std::size_t retries_coming_back(Seconds work, const TurnAhead& ahead) {
    const auto all = static_cast<Seconds::rep>(ahead.retries) * work;
    return static_cast<std::size_t>(std::max<Seconds::rep>(1, (2 * all + ahead.work) / (2 * ahead.work)));
}

/// Reserves room in a timetable that has its days.
class Reserver {
  public:
    Reserver(const Candidate& candidate, Timetable& timetable)
        : candidate_(candidate), timetable_(timetable) {
        const std::vector<TurnCount> counts = turn_counts(candidate);
        for (const TurnCount& count : counts)
            timetable.reattempts += count.done;
        for (const WorkItem& item : timetable.items)
            add(item);
        for (const Source& source : sources_)
            for (LaterRetry& retry : later_retries(source.ahead, counts)) {
                later_.push_back(std::move(retry));
                brought_by_.push_back(&source);
            }
    }

    void reserve() {
        if (later_.empty())
            return;
        const TimeAhead time = time_left();
        const std::vector<std::optional<Day>> days = days_for_later(time, later_);
        for (std::size_t i = 0; i < later_.size(); ++i) {
            const Seconds work = later_[i].work;
            timetable_.expected_again += work;
            if (days[i])
                timetable_.reservations.push_back(
                    {brought_by_[i]->subject, brought_by_[i]->paper, *days[i], work, later_[i].turn});
            else
                timetable_.again_without_room += work;
        }
        std::stable_sort(timetable_.reservations.begin(), timetable_.reservations.end(),
                         [](const Reservation& a, const Reservation& b) { return a.day < b.day; });
        weigh(time, days);
        if (timetable_.again_without_room > Seconds(0) && timetable_.fit == PlanFit::fits)
            timetable_.fit = PlanFit::not_found;
    }

  private:
    struct Source {
        std::string subject;
        std::string paper;
        TurnAhead ahead;
    };

    void add(const WorkItem& item) {
        if (!item.day)
            return;
        if (const auto* paper = std::get_if<PaperToSit>(&item.work))
            add(*paper, *item.day);
        else if (const auto* retry = std::get_if<Retry>(&item.work))
            add(*retry, item.duration);
    }

    void add(const PaperToSit& paper, Day sat) {
        const ExpectedRetries& expected = paper.piece.expected;
        const auto window = retry_window(sat, expected.exam);
        if (expected.retries.empty() || !window)
            return;
        const Seconds work = std::accumulate(expected.retries.begin(), expected.retries.end(), Seconds(0));
        sources_.push_back(
            {paper.subject,
             paper.paper ? paper.paper->id() : std::string(),
             {1, work, expected.retries.size(), {window->opens, window->closes}, expected.exam}});
    }

    void add(const Retry& retry, Seconds work) {
        const Day day = *retry.day;
        const auto [found, is_first] =
            of_sitting_.try_emplace({retry.id.sitting, retry.id.turn, retry.exam}, sources_.size());
        if (is_first) {
            sources_.push_back({retry.paper->subject(),
                                retry.paper->id(),
                                {retry.id.turn, work, 1, {day, day}, retry.exam}});
            return;
        }
        TurnAhead& ahead = sources_[found->second].ahead;
        ahead.work += work;
        ++ahead.retries;
        ahead.days = {std::min(ahead.days.first, day), std::max(ahead.days.last, day)};
    }

    std::size_t offset(Day day) const { return static_cast<std::size_t>((day - timetable_.today).count()); }

    /// Up to the last day that may be needed, with all that is planned as if it were done. A day that late
    /// work takes more than half of has no time left.
    TimeAhead time_left() const {
        Day last = timetable_.today;
        for (const LaterRetry& retry : later_)
            last = std::max(last, retry.spans.back().last);
        for (const WorkItem& item : timetable_.items)
            last = std::max(last, item.day.value_or(last));
        for (const Reservation& room : timetable_.reservations)
            last = std::max(last, room.day);
        TimeAhead time =
            time_ahead(candidate_.availability, candidate_.exams, timetable_.done, {timetable_.today, last});
        std::vector<Seconds> late(time.days.size(), Seconds(0));
        for (const WorkItem& item : timetable_.items)
            if (item.day) {
                time.days[offset(*item.day)].done += item.duration;
                late[offset(*item.day)] += is_late(item) ? item.duration : Seconds(0);
            }
        for (const Reservation& room : timetable_.reservations)
            time.days[offset(room.day)].done += room.duration;
        for (std::size_t t = 0; t < late.size(); ++t)
            if (2 * late[t] > time.days[t].available)
                time.days[t].available = std::min(time.days[t].available, time.days[t].done);
        return time;
    }

    static bool is_late(const WorkItem& item) {
        if (const auto* retry = std::get_if<Retry>(&item.work))
            return retry->late;
        if (const auto* check = std::get_if<TopicToCheck>(&item.work))
            return check->late;
        const auto* group = std::get_if<RecallGroup>(&item.work);
        return group && group->late;
    }

    void weigh(const TimeAhead& time, const std::vector<std::optional<Day>>& days) {
        std::map<Day, Seconds> reserved;
        for (std::size_t i = 0; i < days.size(); ++i)
            if (days[i])
                reserved[*days[i]] += later_[i].work;
        for (const auto& [day, seconds] : reserved) {
            const DayTime& one = time.days[offset(day)];
            const auto available = static_cast<double>(one.available.count());
            const auto before = static_cast<double>(one.done.count());
            const auto after = static_cast<double>((one.done + seconds).count());
            timetable_.evenness += (after * after - before * before) / available;
            timetable_.fullest_share = std::max(timetable_.fullest_share, after / available);
        }
    }

    const Candidate& candidate_;
    Timetable& timetable_;
    std::vector<Source> sources_;
    std::map<std::tuple<SittingId, int, std::optional<Day>>, std::size_t> of_sitting_;
    std::vector<LaterRetry> later_;
    std::vector<const Source*> brought_by_; ///< of each
};

} // namespace

std::vector<Seconds> shared_out(Seconds time, std::size_t pieces) {
    const auto count = static_cast<Seconds::rep>(pieces);
    std::vector<Seconds> shares;
    for (Seconds::rep i = 0; i < count; ++i) {
        const Seconds piece = time * (i + 1) / count - time * i / count;
        if (piece > Seconds(0))
            shares.push_back(piece);
    }
    return shares;
}

std::vector<LaterRetry> later_retries(const TurnAhead& ahead, const std::vector<TurnCount>& counts) {
    std::vector<LaterRetry> later;
    Seconds work = ahead.work;
    DaySpan days = ahead.days;
    for (int turn = ahead.turn; turn < ahead.turn + max_later_turns; ++turn) {
        work = coming_back(work, counts, turn);
        const auto window = next_window(days, ahead.exam);
        if (work < least_expected || !window)
            break;
        days = *window;
        for (const Seconds piece : shared_out(work, retries_coming_back(work, ahead)))
            later.push_back({turn + 1, piece, spans_from(days, ahead.exam)});
    }
    return later;
}

std::vector<std::optional<Day>> days_for_later(const TimeAhead& time, const std::vector<LaterRetry>& later) {
    board::Board board(time, {});
    std::vector<board::Index> rooms;
    for (const LaterRetry& retry : later) {
        rooms.push_back(board.size());
        board.add_room(rooms.back(), retry.work, retry.spans, time.today);
    }
    if (rooms.size() <= max_exact_rooms && board::steps_of_exact(board, rooms) <= max_exact_room_steps) {
        const std::vector<board::MaybeDay> days = board::place_exactly(board, rooms)->days;
        for (const board::Index i : rooms)
            if (days[i])
                board.put(i, *days[i]);
    } else {
        board::Fitter(board).reserve(rooms);
        board::even_out(board);
        board::polish(board);
    }
    std::vector<std::optional<Day>> days;
    for (const board::Index i : rooms) {
        const board::MaybeDay t = board.day_of(i);
        days.push_back(t ? std::optional<Day>(time.today + Days{*t}) : std::nullopt);
    }
    return days;
}

void reserve_later_turns(const Candidate& candidate, Timetable& timetable) {
    Reserver(candidate, timetable).reserve();
}

} // namespace inkturn
