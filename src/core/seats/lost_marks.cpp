#include "inkturn/seats/lost_marks.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <set>
#include <utility>

namespace inkturn {
namespace {

constexpr double hundredths = 100;

void keep_only(LostMarks& lost, std::size_t candidate, const std::vector<bool>& kept) {
    for (std::size_t topic = 0; topic < kept.size(); ++topic)
        if (!kept[topic]) {
            lost.marks[candidate][topic] = Marks(0);
            lost.won_in_an_hour[candidate][topic] = SeatWeight();
        }
}

/// A topic of that name in another subject.
void add(TopicLosses& sum, const TopicLosses& more) {
    sum.marks += more.marks;
    sum.won_in_an_hour = SeatWeight(sum.won_in_an_hour.count() + more.won_in_an_hour.count());
}

/// Throws Error unless there is a row for each candidate, with an entry for each topic.
void check_is_full(const LostMarks& lost) {
    const auto is_full = [&](const auto& row) { return row.size() == lost.topics.size(); };
    if (lost.marks.size() != lost.candidates.size() || lost.won_in_an_hour.size() != lost.candidates.size() ||
        !std::all_of(lost.marks.begin(), lost.marks.end(), is_full) ||
        !std::all_of(lost.won_in_an_hour.begin(), lost.won_in_an_hour.end(), is_full))
        throw Error("every candidate needs an entry for each topic", Error::Kind::misused);
}

/// The same, and that the plan is of these.
void check_is_of(const SeatPlan& plan, const LostMarks& lost) {
    check_is_full(lost);
    for (const SeatPlan::SeatedLesson& one : plan.lessons) {
        const bool has_topics = std::all_of(one.topics.begin(), one.topics.end(),
                                            [&](std::size_t topic) { return topic < lost.topics.size(); });
        const bool has_candidates =
            std::all_of(one.seats.begin(), one.seats.end(),
                        [&](const SeatPlan::Seat& seat) { return seat.candidate < lost.candidates.size(); });
        if (!has_topics || !has_candidates)
            throw Error("the plan has other candidates or topics", Error::Kind::misused);
    }
}

const Wish* find_wish(const std::vector<Wish>& wishes, const std::string& candidate) {
    const auto found = std::find_if(wishes.begin(), wishes.end(),
                                    [&](const Wish& wish) { return wish.candidate == candidate; });
    return found == wishes.end() ? nullptr : &*found;
}

bool wants(const Wish& wish, const std::string& topic) {
    return wish.topics.empty() || std::binary_search(wish.topics.begin(), wish.topics.end(), topic);
}

/// Whether there is no date, or one on which the candidate can come.
bool can_come(const SeatTerms& terms, const std::optional<Day>& date) {
    return !date || terms.dates.empty() ||
           std::find(terms.dates.begin(), terms.dates.end(), *date) != terms.dates.end();
}

/// Whether a lesson that the candidate can come to is on one of the topics.
bool any_lesson_on(const SeatPlan& plan, const SeatTerms& terms, const std::vector<std::size_t>& topics) {
    return std::any_of(plan.lessons.begin(), plan.lessons.end(), [&](const SeatPlan::SeatedLesson& one) {
        return can_come(terms, one.date) &&
               std::any_of(one.topics.begin(), one.topics.end(), [&](std::size_t topic) {
                   return std::find(topics.begin(), topics.end(), topic) != topics.end();
               });
    });
}

/// `weights` are the candidate's.
NoSeat why_no_seat(const SeatPlan& plan, const SeatsBasis& basis, const std::vector<SeatWeight>& weights,
                   std::size_t candidate) {
    const LostMarks& lost = basis.lost;
    const SeatTerms terms = basis.terms.empty() ? SeatTerms() : basis.terms[candidate];
    if (terms.never)
        return NoSeat::never;
    const Wish* wish = basis.wishes ? find_wish(*basis.wishes, lost.candidates[candidate]) : nullptr;
    if (basis.wishes && !wish)
        return NoSeat::not_asked;
    bool met = false;
    bool any_lost = false;
    std::vector<std::size_t> needed;
    for (std::size_t topic = 0; topic < lost.topics.size(); ++topic) {
        if (wish && !wants(*wish, lost.topics[topic]))
            continue;
        met = met || lost.met[candidate][topic];
        any_lost = any_lost || lost.marks[candidate][topic] > Marks(0);
        if (weights[topic] > SeatWeight())
            needed.push_back(topic);
    }
    if (!met)
        return basis.with_marks.count(lost.candidates[candidate]) > 0 ? NoSeat::no_part : NoSeat::no_marks;
    if (needed.empty())
        return any_lost ? NoSeat::firm : NoSeat::full_marks;
    const std::vector<Day>& dates = basis.request.dates;
    if (!dates.empty() &&
        std::none_of(dates.begin(), dates.end(), [&](Day date) { return can_come(terms, date); }))
        return NoSeat::other_dates;
    return any_lesson_on(plan, terms, needed) ? NoSeat::no_room : NoSeat::other_topics;
}

} // namespace

std::string_view name(SeatMeasure measure) noexcept {
    return measure == SeatMeasure::hour ? "hour" : "marks";
}

std::optional<SeatMeasure> seat_measure_named(std::string_view text) noexcept {
    for (const SeatMeasure measure : {SeatMeasure::hour, SeatMeasure::marks})
        if (text == name(measure))
            return measure;
    return std::nullopt;
}

SeatWeight won_in_an_hour(const TopicDiagnosis& topic) {
    if (!topic.outlook || topic.advice->what == Advice::firm)
        return {};
    return SeatWeight(static_cast<int>(std::lround(hundredths * topic.outlook->won_back)));
}

std::map<std::string, TopicLosses> losses_by_topic(const std::vector<TopicDiagnosis>& topics) {
    std::map<std::string, TopicLosses> lost;
    for (const TopicDiagnosis& topic : topics)
        if (!topic.topic.empty())
            add(lost[topic.topic], {topic.lost.all(), won_in_an_hour(topic)});
    return lost;
}

std::optional<Marks> marks_lost_on(const std::vector<TopicDiagnosis>& topics,
                                   const std::vector<std::string>& names) {
    std::optional<Marks> lost;
    for (const TopicDiagnosis& topic : topics)
        if (std::find(names.begin(), names.end(), topic.topic) != names.end())
            lost = lost.value_or(Marks(0)) + topic.lost.all();
    return lost;
}

std::vector<std::vector<SeatWeight>> LostMarks::rows_by(SeatMeasure measure) const {
    if (measure == SeatMeasure::hour)
        return won_in_an_hour;
    std::vector<std::vector<SeatWeight>> rows;
    for (const std::vector<Marks>& row : marks) {
        std::vector<SeatWeight>& weights = rows.emplace_back();
        for (const Marks lost : row)
            weights.emplace_back(lost.count());
    }
    return rows;
}

LostMarks lost_marks(const std::vector<CandidateLosses>& candidates) {
    std::map<std::string, std::size_t> positions;
    for (const CandidateLosses& candidate : candidates)
        for (const auto& [topic, lost] : candidate.by_topic)
            positions.emplace(topic, 0);
    LostMarks table;
    for (auto& [topic, position] : positions) {
        position = table.topics.size();
        table.topics.push_back(topic);
    }
    for (const CandidateLosses& candidate : candidates) {
        table.candidates.push_back(candidate.candidate);
        table.met.emplace_back(table.topics.size());
        std::vector<Marks>& marks = table.marks.emplace_back(table.topics.size());
        std::vector<SeatWeight>& in_an_hour = table.won_in_an_hour.emplace_back(table.topics.size());
        for (const auto& [topic, lost] : candidate.by_topic) {
            marks[positions.at(topic)] = lost.marks;
            in_an_hour[positions.at(topic)] = lost.won_in_an_hour;
            table.met.back()[positions.at(topic)] = true;
        }
    }
    return table;
}

void keep_wishes(LostMarks& lost, const std::vector<Wish>& wishes) {
    check_is_full(lost);
    for (std::size_t i = 0; i < lost.candidates.size(); ++i) {
        const Wish* wish = find_wish(wishes, lost.candidates[i]);
        std::vector<bool> kept;
        for (const std::string& topic : lost.topics)
            kept.push_back(wish && wants(*wish, topic));
        keep_only(lost, i, kept);
    }
}

std::vector<std::vector<SeatLosses>> losses_by_seat(const SeatPlan& plan, const LostMarks& lost) {
    check_is_of(plan, lost);
    std::set<std::pair<std::size_t, std::size_t>> taken;
    std::vector<std::vector<SeatLosses>> lessons;
    for (const SeatPlan::SeatedLesson& one : plan.lessons) {
        std::vector<SeatLosses>& seats = lessons.emplace_back();
        for (const SeatPlan::Seat& seat : one.seats) {
            SeatLosses& sum = seats.emplace_back();
            for (const std::size_t topic : one.topics)
                if (taken.emplace(seat.candidate, topic).second) {
                    sum.marks += lost.marks[seat.candidate][topic];
                    sum.won_in_an_hour += lost.won_in_an_hour[seat.candidate][topic];
                }
        }
    }
    return lessons;
}

SeatLosses total_losses(const std::vector<std::vector<SeatLosses>>& seats) {
    SeatLosses all;
    for (const std::vector<SeatLosses>& of_class : seats)
        for (const SeatLosses& seat : of_class) {
            all.marks += seat.marks;
            all.won_in_an_hour += seat.won_in_an_hour;
        }
    return all;
}

std::string_view name(NoSeat why) noexcept {
    constexpr std::array<std::string_view, 9> names{"never",       "not_asked",    "no_marks",
                                                    "no_part",     "full_marks",   "firm",
                                                    "other_dates", "other_topics", "no_room"};
    return names[static_cast<std::size_t>(why)];
}

std::vector<WithoutSeat> without_seat(const SeatPlan& plan, const SeatsBasis& basis) {
    check_is_of(plan, basis.lost);
    std::vector<bool> is_seated(basis.lost.candidates.size());
    for (const SeatPlan::SeatedLesson& one : plan.lessons)
        for (const SeatPlan::Seat& seat : one.seats)
            is_seated[seat.candidate] = true;
    const std::vector<std::vector<SeatWeight>> rows = basis.lost.rows_by(basis.measure);
    std::vector<WithoutSeat> without;
    for (std::size_t i = 0; i < is_seated.size(); ++i)
        if (!is_seated[i])
            without.push_back({basis.lost.candidates[i], why_no_seat(plan, basis, rows[i], i)});
    return without;
}

} // namespace inkturn
