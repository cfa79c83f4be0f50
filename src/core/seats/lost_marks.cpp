#include "inkturn/seats/lost_marks.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
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
    for (const SeatPlan::RevisionClass& one : plan.classes) {
        const bool has_topics = std::all_of(one.topics.begin(), one.topics.end(),
                                            [&](std::size_t topic) { return topic < lost.topics.size(); });
        const bool has_candidates =
            std::all_of(one.seats.begin(), one.seats.end(),
                        [&](const SeatPlan::Seat& seat) { return seat.candidate < lost.candidates.size(); });
        if (!has_topics || !has_candidates)
            throw Error("the plan has other candidates or topics", Error::Kind::misused);
    }
}

/// Whether a candidate has a weight on any topic.
std::vector<bool> need_a_seat(const LostMarks& lost, SeatMeasure measure) {
    check_is_full(lost);
    std::vector<bool> needs;
    for (const std::vector<SeatWeight>& row : lost.rows_by(measure))
        needs.push_back(
            std::any_of(row.begin(), row.end(), [](SeatWeight weight) { return weight.count() > 0; }));
    return needs;
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
        std::vector<Marks>& marks = table.marks.emplace_back(table.topics.size());
        std::vector<SeatWeight>& in_an_hour = table.won_in_an_hour.emplace_back(table.topics.size());
        for (const auto& [topic, lost] : candidate.by_topic) {
            marks[positions.at(topic)] = lost.marks;
            in_an_hour[positions.at(topic)] = lost.won_in_an_hour;
        }
    }
    return table;
}

void keep_wishes(LostMarks& lost, const std::vector<Wish>& wishes) {
    check_is_full(lost);
    std::set<std::pair<std::string, std::string>> wishes_by_candidate;
    for (const Wish& wish : wishes)
        wishes_by_candidate.emplace(wish.candidate, wish.topic);
    for (std::size_t i = 0; i < lost.candidates.size(); ++i) {
        if (wishes_by_candidate.count({lost.candidates[i], ""}) > 0)
            continue;
        std::vector<bool> kept;
        for (const std::string& topic : lost.topics)
            kept.push_back(wishes_by_candidate.count({lost.candidates[i], topic}) > 0);
        keep_only(lost, i, kept);
    }
}

std::vector<std::vector<SeatLosses>> losses_by_seat(const SeatPlan& plan, const LostMarks& lost) {
    check_is_of(plan, lost);
    std::set<std::pair<std::size_t, std::size_t>> taken;
    std::vector<std::vector<SeatLosses>> classes;
    for (const SeatPlan::RevisionClass& one : plan.classes) {
        std::vector<SeatLosses>& seats = classes.emplace_back();
        for (const SeatPlan::Seat& seat : one.seats) {
            SeatLosses& sum = seats.emplace_back();
            for (const std::size_t topic : one.topics)
                if (taken.emplace(seat.candidate, topic).second) {
                    sum.marks += lost.marks[seat.candidate][topic];
                    sum.won_in_an_hour += lost.won_in_an_hour[seat.candidate][topic];
                }
        }
    }
    return classes;
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

std::vector<std::string> left_out_of(const SeatPlan& plan, const LostMarks& lost, SeatMeasure measure) {
    check_is_of(plan, lost);
    std::vector<bool> is_seated(lost.candidates.size());
    for (const SeatPlan::RevisionClass& one : plan.classes)
        for (const SeatPlan::Seat& seat : one.seats)
            is_seated[seat.candidate] = true;
    const std::vector<bool> needs = need_a_seat(lost, measure);
    std::vector<std::string> left_out;
    for (std::size_t i = 0; i < lost.candidates.size(); ++i)
        if (!is_seated[i] && needs[i])
            left_out.push_back(lost.candidates[i]);
    return left_out;
}

std::vector<std::string> without_need(const LostMarks& lost, SeatMeasure measure) {
    const std::vector<bool> needs = need_a_seat(lost, measure);
    std::vector<std::string> without;
    for (std::size_t i = 0; i < lost.candidates.size(); ++i)
        if (!needs[i])
            without.push_back(lost.candidates[i]);
    return without;
}

} // namespace inkturn
