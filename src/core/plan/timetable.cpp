#include "inkturn/plan/timetable.hpp"

#include "inkturn/base/number.hpp"
#include "inkturn/plan/arrange.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <tuple>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 4> work_names{"retry", "sit", "relearn", "recall"};

/// The days of the span, up to the next day with time where it has none; nothing where there is none within
/// two weeks and before the exam either.
std::optional<DaySpan> with_time(const Availability& availability, DaySpan span, std::optional<Day> exam) {
    constexpr Days looked_at{14};
    const Day end = std::min(span.last + looked_at, exam ? *exam - Days{1} : latest_day);
    for (Day day = span.first; day <= end; day += Days{1})
        if (availability.on(day) > Seconds(0))
            return DaySpan{span.first, std::max(std::min(span.last, end), day)};
    return std::nullopt;
}

std::string fact_name(FactId fact) {
    return std::to_string(static_cast<std::int64_t>(fact));
}

/// Gathers the work, has it arranged, and gives each piece its day.
class TimetableBuilder {
  public:
    TimetableBuilder(const Candidate& candidate, const TimetableRequest& request, Day today)
        : candidate_(candidate),
          request_(request),
          today_(today),
          keep_(request.mode == PlacementMode::keep) {
        timetable_.share = request.share;
        if (keep_)
            days_of_facts_ = fact_days(candidate.planned);
        add_retries_and_topics();
        add_facts();
        SittingsAhead ahead =
            sittings_ahead(candidate, {request.papers, request.on_desk, request.share, keep_}, today);
        timetable_.subjects = std::move(ahead.subjects);
        papers_ = std::move(ahead.papers);
        set_capacity();
    }

    Timetable made() {
        std::vector<Block> blocks;
        for (const PaperToSit& paper : papers_)
            blocks.push_back(paper.block);
        const Arrangement arrangement = arrange(capacity_, loads_, blocks);
        for (std::size_t i = 0; i < loads_.size(); ++i)
            give_day(timetable_.items[loaded_[i]], arrangement.loads[i]);
        put_pieces_in_order();
        timetable_.short_by = arrangement.over + without_day();
        keep_room(arrangement);
        add_sittings(arrangement);
        sort();
        return std::move(timetable_);
    }

    Seconds short_by() {
        std::vector<Block> blocks;
        for (const PaperToSit& paper : papers_)
            blocks.push_back(paper.block);
        return shortfall(capacity_, loads_, blocks) + without_day();
    }

  private:
    /// A retry waits for its topic to be relearned, up to the middle of its window.
    void add_retries_and_topics() {
        const std::vector<Retry> retries = open_retries(candidate_, today_, request_.mode);
        const std::vector<TopicToRelearn> topics = topics_to_relearn(candidate_, retries, today_);
        for (const Retry& retry : retries) {
            std::optional<DaySpan> possible_days = retry.possible_days;
            if (retry.outside_window)
                possible_days = {*retry.day, *retry.day};
            else if (possible_days)
                wait_for_topics(retry, topics, *possible_days);
            const bool is_kept = retry.outside_window || (keep_ && !retry.day_is_new);
            add(retry, retry.allowance, retry.day ? possible_days : std::nullopt,
                is_kept ? retry.day : std::nullopt);
            timetable_.items.back().possible_days = possible_days;
        }
        for (const TopicToRelearn& topic : topics)
            add(topic, TopicToRelearn::time_of_piece,
                with_time(candidate_.availability, topic.possible_days, exam_ahead(topic.subject)),
                keep_ ? planned_day(candidate_.planned, WorkPurpose::relearn, topic.subject, topic.topic,
                                    topic.piece)
                      : std::nullopt);
    }

    void wait_for_topics(const Retry& retry, const std::vector<TopicToRelearn>& topics,
                         DaySpan& possible_days) const {
        const std::map<std::string, Marks> lost = lost_for_method(candidate_, retry);
        for (const TopicToRelearn& topic : topics)
            if (topic.subject == retry.paper->subject() && lost.count(topic.topic) > 0 &&
                topic.possible_days.last <
                    std::min(possible_days.last, comes_after_relearning(retry, today_)))
                possible_days.first = std::max(possible_days.first, topic.possible_days.last + Days{1});
    }

    /// Facts that have a day are asked together with others of that day.
    void add_facts() {
        const std::vector<DueFact> due = facts_due(request_.facts, request_.sheets, candidate_.exams, today_);
        std::map<std::optional<Day>, std::vector<DueFact>> by_day;
        for (const DueFact& one : due)
            by_day[kept_day(one)].push_back(one);
        for (const auto& [day, together] : by_day)
            for (const RecallGroup& group : recall_groups(request_.facts, together))
                add(group, group.duration,
                    with_time(candidate_.availability, group.possible_days, exam_ahead(group.subject)), day);
    }

    std::optional<Day> exam_ahead(const std::string& subject) const {
        return exam_that_ends(candidate_.exams, subject, today_, today_);
    }

    std::optional<Day> kept_day(const DueFact& due) const {
        const auto chosen = days_of_facts_.find(due.fact);
        if (chosen == days_of_facts_.end() || !due.possible_days ||
            !due.possible_days->contains(chosen->second) ||
            candidate_.availability.on(chosen->second) == Seconds(0))
            return std::nullopt;
        return chosen->second;
    }

    /// Without days left it has no load.
    void add(WorkItem::Work work, Seconds duration, std::optional<DaySpan> possible_days,
             std::optional<Day> kept_day) {
        timetable_.items.push_back({std::move(work), duration, possible_days, std::nullopt});
        if (!possible_days)
            return;
        if (kept_day &&
            (!possible_days->contains(*kept_day) || (candidate_.availability.on(*kept_day) == Seconds(0) &&
                                                     possible_days->first != possible_days->last)))
            kept_day.reset();
        loaded_.push_back(timetable_.items.size() - 1);
        loads_.push_back({possible_days->first, possible_days->last, duration, kept_day});
    }

    void set_capacity() {
        Day last = today_;
        for (const Load& load : loads_)
            last = std::max(last, load.fixed_day.value_or(load.closes));
        for (const Load& load : loads_)
            last = std::max(last, load.closes);
        constexpr Days room_for_retries{35};
        for (const PaperToSit& paper : papers_)
            for (const DaySpan span : paper.block.spans)
                last = std::max(last, span.last + room_for_retries);
        capacity_.first = today_;
        for (Day day = today_; day <= last; day += Days{1})
            capacity_.available.push_back(candidate_.availability.on(day));
    }

    static void give_day(WorkItem& item, Day day) {
        item.day = day;
        if (auto* retry = std::get_if<Retry>(&item.work))
            retry->day = day;
    }

    /// The pieces of a topic follow each other in the list, and have the same days left.
    void put_pieces_in_order() {
        for (std::size_t i = 1; i < timetable_.items.size(); ++i) {
            WorkItem& before = timetable_.items[i - 1];
            WorkItem& after = timetable_.items[i];
            const auto* one = std::get_if<TopicToRelearn>(&before.work);
            const auto* next = std::get_if<TopicToRelearn>(&after.work);
            if (one && next && one->subject == next->subject && one->topic == next->topic &&
                before.day > after.day)
                std::swap(before.day, after.day);
        }
    }

    /// Of work that might be done before its exam.
    Seconds without_day() const {
        std::vector<bool> has_load(timetable_.items.size(), false);
        for (const std::size_t item : loaded_)
            has_load[item] = true;
        Seconds sum{0};
        for (std::size_t i = 0; i < timetable_.items.size(); ++i)
            if (!has_load[i] &&
                (timetable_.items[i].kind() != WorkKind::retry || timetable_.items[i].possible_days))
                sum += timetable_.items[i].duration;
        return sum;
    }

    void keep_room(const Arrangement& arrangement) {
        for (const Arrangement::ExpectedRetry& expected : arrangement.expected_retries) {
            const PaperToSit& paper = papers_[expected.block];
            timetable_.reservations.push_back({paper.subject, paper.paper ? paper.paper->id() : std::string(),
                                               expected.day, expected.work,
                                               days_of_retries(paper, expected.day)});
        }
        std::stable_sort(timetable_.reservations.begin(), timetable_.reservations.end(),
                         [](const Reservation& a, const Reservation& b) { return a.day < b.day; });
    }

    /// From the window of the first day that the paper may take to that of the last one.
    static DaySpan days_of_retries(const PaperToSit& paper, Day chosen) {
        DaySpan days{chosen, chosen};
        for (const DaySpan span : paper.block.spans)
            for (const Day day : {span.first, span.last})
                if (const auto window = retry_window(day, paper.block.exam)) {
                    days.first = std::min(days.first, window->opens);
                    days.last = std::max(days.last, window->closes);
                }
        return days;
    }

    void add_sittings(const Arrangement& arrangement) {
        for (std::size_t i = 0; i < papers_.size(); ++i) {
            const PaperToSit& paper = papers_[i];
            const std::optional<Day> day = arrangement.blocks[i];
            SubjectAhead& subject =
                *std::find_if(timetable_.subjects.begin(), timetable_.subjects.end(),
                              [&](const SubjectAhead& one) { return one.subject == paper.subject; });
            Seconds expected{0};
            for (const Seconds piece : paper.block.expected_retries)
                expected += piece;
            if (day) {
                timetable_.expected += expected;
                if (paper.last_useful && *day > *paper.last_useful)
                    ++subject.too_late;
            } else {
                timetable_.short_by += paper.block.work + expected;
                subject.without_day.push_back(name_of(paper));
            }
            DaySpan possible_days = paper.block.spans.front();
            for (const DaySpan span : paper.block.spans)
                possible_days = {std::min(possible_days.first, span.first),
                                 std::max(possible_days.last, span.last)};
            timetable_.items.push_back({paper, paper.block.work, possible_days, day});
        }
    }

    /// Retries of a day in the order in which they were dropped.
    void sort() {
        std::map<SittingId, std::size_t> sittings;
        for (const SittingRecord& record : candidate_.sittings)
            sittings.emplace(record.id, sittings.size());
        const auto place = [&](const WorkItem& item) {
            const auto* retry = std::get_if<Retry>(&item.work);
            return std::tuple(!item.day, item.day, item.kind(),
                              retry ? std::pair(sittings.at(retry->id.sitting), retry->question)
                                    : std::pair<std::size_t, std::size_t>());
        };
        std::stable_sort(timetable_.items.begin(), timetable_.items.end(),
                         [&](const WorkItem& a, const WorkItem& b) { return place(a) < place(b); });
    }

    const Candidate& candidate_;
    const TimetableRequest& request_;
    Day today_;
    bool keep_;
    FactDays days_of_facts_; ///< to be kept
    Timetable timetable_;
    Capacity capacity_;
    std::vector<Load> loads_;
    std::vector<std::size_t> loaded_; ///< the item of each load
    std::vector<PaperToSit> papers_;
};

using DaysOnFile = std::map<std::pair<SittingId, std::string>, Day>;

DaysOnFile days_on_file(const Candidate& candidate) {
    DaysOnFile days;
    for (const Placement& placement : candidate.placements)
        days[{placement.sitting, placement.question}] = placement.day;
    return days;
}

/// The candidate as if the days chosen were on file.
Candidate with_days_of(const Timetable& timetable, Candidate candidate) {
    DaysOnFile days = days_on_file(candidate);
    for (const WorkItem& item : timetable.items)
        if (const auto* retry = std::get_if<Retry>(&item.work); retry && item.day)
            days[{retry->id.sitting, retry->id.question}] = *item.day;
    candidate.placements.clear();
    for (const auto& [retry, day] : days)
        candidate.placements.push_back({retry.first, retry.second, day});
    candidate.planned = planned_work(timetable);
    return candidate;
}

/// Room that is kept is not compared: it follows from the days of all else.
bool has_same_days(const Timetable& a, const Timetable& b) {
    const auto chosen = [](const Timetable& timetable) {
        std::vector<PlannedWork> planned = planned_work(timetable);
        planned.erase(
            std::remove_if(planned.begin(), planned.end(),
                           [](const PlannedWork& work) { return work.what == WorkPurpose::reservation; }),
            planned.end());
        return planned;
    };
    const auto place = [](const PlannedWork& work) {
        return std::tie(work.what, work.subject, work.name, work.number, work.day);
    };
    const std::vector<PlannedWork> of_a = chosen(a);
    const std::vector<PlannedWork> of_b = chosen(b);
    return std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(),
                      [](const WorkItem& x, const WorkItem& y) { return x.day == y.day; }) &&
           std::equal(of_a.begin(), of_a.end(), of_b.begin(), of_b.end(),
                      [&](const PlannedWork& x, const PlannedWork& y) { return place(x) == place(y); });
}

/// Made again from its own days until nothing moves any more, so that the next plan leaves it alone.
Timetable settled(const Candidate& candidate, const TimetableRequest& keeping, Day today, Timetable made) {
    constexpr int max_rounds = 4;
    for (int round = 0; round < max_rounds; ++round) {
        Timetable next = TimetableBuilder(with_days_of(made, candidate), keeping, today).made();
        const bool is_settled = has_same_days(made, next);
        made = std::move(next);
        if (is_settled)
            break;
    }
    return made;
}

void compare_with_file(const Candidate& candidate, Timetable& timetable) {
    const DaysOnFile days = days_on_file(candidate);
    for (WorkItem& item : timetable.items)
        if (auto* retry = std::get_if<Retry>(&item.work)) {
            const auto before = days.find({retry->id.sitting, retry->id.question});
            retry->day_is_new = item.day && (before == days.end() || before->second != *item.day);
        }
}

} // namespace

std::string_view name(WorkKind kind) noexcept {
    return work_names[static_cast<std::size_t>(kind)];
}

Timetable timetable(const Candidate& candidate, const TimetableRequest& request, Day today) {
    Timetable made = TimetableBuilder(candidate, request, today).made();
    TimetableRequest other = request;
    if (made.short_by > Seconds(0) && request.mode == PlacementMode::keep) {
        other.mode = PlacementMode::again;
        Timetable anew = TimetableBuilder(candidate, other, today).made();
        if (anew.short_by < made.short_by)
            made = std::move(anew);
    }
    other.mode = PlacementMode::keep;
    made = settled(candidate, other, today, std::move(made));
    compare_with_file(candidate, made);
    return made;
}

Seconds shortfall(const Candidate& candidate, const TimetableRequest& request, Day today) {
    return TimetableBuilder(candidate, request, today).short_by();
}

FactDays fact_days(const std::vector<PlannedWork>& planned) {
    FactDays days;
    for (const PlannedWork& work : planned)
        if (work.what == WorkPurpose::recall)
            if (const auto number = read_whole_number(work.name, std::numeric_limits<int>::max()))
                days[FactId{*number}] = work.day;
    return days;
}

std::vector<PlannedWork> planned_work(const Timetable& timetable) {
    std::vector<PlannedWork> planned;
    for (const WorkItem& item : timetable.items) {
        if (!item.day)
            continue;
        if (const auto* paper = std::get_if<PaperToSit>(&item.work))
            planned.push_back({WorkPurpose::sit, paper->subject,
                               paper->paper ? paper->paper->id() : std::string(), paper->number, *item.day,
                               item.duration});
        else if (const auto* topic = std::get_if<TopicToRelearn>(&item.work))
            planned.push_back(
                {WorkPurpose::relearn, topic->subject, topic->topic, topic->piece, *item.day, item.duration});
        else if (const auto* group = std::get_if<RecallGroup>(&item.work))
            for (const FactId fact : group->facts)
                planned.push_back(
                    {WorkPurpose::recall, group->subject, fact_name(fact), 0, *item.day, time_for_fact});
    }
    for (const Reservation& reservation : timetable.reservations)
        planned.push_back({WorkPurpose::reservation, reservation.subject, reservation.paper, 0,
                           reservation.day, reservation.duration});
    return planned;
}

} // namespace inkturn
