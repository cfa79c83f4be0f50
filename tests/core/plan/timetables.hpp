#pragma once

#include "days.hpp"
#include "inkturn/plan/timetable.hpp"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace inkturn::test {

inline std::shared_ptr<const Paper> paper(const std::string& id, const std::string& subject,
                                          int questions = 5, int marks = 10) {
    std::vector<Part> parts;
    for (int i = 1; i <= questions; ++i)
        parts.push_back({std::to_string(i), Marks(marks), i % 2 == 0 ? "vectors" : "integration", ""});
    return std::make_shared<const Paper>(PaperHead{id, "", subject, {}, RetryBy::question}, parts);
}

/// Two hours on Saturdays, one on other days, Sundays off.
inline Candidate candidate() {
    Candidate candidate;
    candidate.code = "K07";
    candidate.availability.week[5] = Seconds(7200);
    return candidate;
}

/// Questions from `first_missed` on went for method.
inline void sit(Candidate& candidate, const std::shared_ptr<const Paper>& paper, Day on,
                std::size_t first_missed) {
    Sitting sitting{on, {}, {}, {}};
    for (std::size_t i = 0; i < paper->parts().size(); ++i) {
        const Marks max = paper->parts()[i].max;
        sitting.parts.push_back(i < first_missed ? full_marks(max)
                                                 : PartMarks(MarksByPhase{}, max, Reason::method));
    }
    candidate.sittings.push_back(
        {SittingId{static_cast<std::int64_t>(candidate.sittings.size()) + 1}, paper, sitting, {}});
}

/// A paper of one part of 5 marks on a topic, with its marks as typed.
inline void sit_part(Candidate& candidate, const std::string& subject, const std::string& topic, Day on,
                     const std::string& marks) {
    const auto number = static_cast<std::int64_t>(candidate.sittings.size()) + 1;
    const auto practice = std::make_shared<const Paper>(
        PaperHead{"practice-" + std::to_string(number), "", subject, {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(5), topic, ""}});
    candidate.sittings.push_back(
        {SittingId{number}, practice, {on, {}, {parse_part_marks(marks, Marks(5))}, {}}, {}});
}

inline std::vector<std::shared_ptr<const Paper>> papers(int count, const std::string& subject) {
    std::vector<std::shared_ptr<const Paper>> papers;
    for (int i = 1; i <= count; ++i)
        papers.push_back(paper(subject + "-" + std::to_string(i), subject));
    return papers;
}

/// Of every paper() on pure and mechanics: plans are tested for windows and days, and weak_topics() alone.
inline std::shared_ptr<const std::vector<WeakTopic>> all_weak() {
    return std::make_shared<const std::vector<WeakTopic>>(std::vector<WeakTopic>{
        {"pure", "integration", 6}, {"pure", "vectors", 4}, {"mechanics", "integration", 3}});
}

/// For a candidate for whom all topics are weak.
inline TimetableRequest request(std::vector<std::shared_ptr<const Paper>> papers,
                                PlacementMode mode = PlacementMode::keep) {
    TimetableRequest request;
    request.papers = std::move(papers);
    request.mode = mode;
    request.weak = all_weak();
    return request;
}

inline std::vector<std::optional<Day>> days_of_papers(const Timetable& timetable) {
    std::map<std::string, std::optional<Day>> days;
    for (const WorkItem& item : timetable.items)
        if (const auto* paper = std::get_if<PaperToSit>(&item.work))
            days[name_of(*paper)] = item.day;
    std::vector<std::optional<Day>> in_order;
    for (const auto& [name, on] : days)
        in_order.push_back(on);
    return in_order;
}

/// As if the timetable had been kept on file.
inline void keep(Candidate& candidate, const Timetable& timetable) {
    candidate.planned = planned_work(timetable);
    candidate.planned_for = timetable.today;
    candidate.placements.clear();
    for (const WorkItem& item : timetable.items)
        if (const auto* retry = std::get_if<Retry>(&item.work))
            if (item.day)
                candidate.placements.push_back({retry->id.sitting, retry->id.question, *item.day});
}

} // namespace inkturn::test
