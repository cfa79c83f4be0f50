#include "inkturn/lost_marks.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace inkturn {

LostMarks lost_marks(const std::vector<CandidateLost>& candidates) {
    std::map<std::string, std::size_t> positions;
    for (const CandidateLost& candidate : candidates)
        for (const auto& [topic, lost] : candidate.by_topic)
            positions.emplace(topic, 0);
    LostMarks table;
    for (auto& [topic, position] : positions) {
        position = table.topics.size();
        table.topics.push_back(topic);
    }
    for (const CandidateLost& candidate : candidates) {
        table.candidates.push_back(candidate.candidate);
        std::vector<Marks>& row = table.marks.emplace_back(table.topics.size());
        for (const auto& [topic, lost] : candidate.by_topic)
            row[positions.at(topic)] = lost;
    }
    return table;
}

void keep_wished(LostMarks& lost, const std::vector<Wish>& wishes) {
    std::set<std::pair<std::string, std::string>> asked;
    for (const Wish& wish : wishes)
        asked.emplace(wish.candidate, wish.topic);
    for (std::size_t i = 0; i < lost.candidates.size(); ++i) {
        if (asked.count({lost.candidates[i], ""}) > 0)
            continue;
        for (std::size_t topic = 0; topic < lost.topics.size(); ++topic)
            if (asked.count({lost.candidates[i], lost.topics[topic]}) == 0)
                lost.marks[i][topic] = Marks(0);
    }
}

std::vector<std::string> left_out_of(const SeatPlan& plan, const LostMarks& lost) {
    std::vector<bool> is_seated(lost.candidates.size());
    for (const SeatPlan::RevisionClass& one : plan.classes)
        for (const SeatPlan::Seat& seat : one.seats)
            is_seated[seat.candidate] = true;
    std::vector<std::string> left_out;
    for (std::size_t i = 0; i < lost.candidates.size(); ++i) {
        const auto has_lost = [](Marks marks) { return marks > Marks(0); };
        if (!is_seated[i] && std::any_of(lost.marks[i].begin(), lost.marks[i].end(), has_lost))
            left_out.push_back(lost.candidates[i]);
    }
    return left_out;
}

} // namespace inkturn
