#include "core/plan/rated_work.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace inkturn {
namespace {

constexpr Days rated_within{7};
constexpr std::size_t max_things = 3; ///< that ratings bring at a time

/// Seven days, or those that an exam leaves of them; today at least.
DaySpan week_before_exam(const Candidate& candidate, const std::string& subject, Day today) {
    Day last = std::min(today + rated_within - Days{1}, latest_day);
    if (const auto exam = exam_ahead(candidate.exams, subject, today))
        last = std::min(last, *exam - Days{1});
    return {today, std::max(today, last)};
}

template <typename Topics>
bool has_topic(const Topics& topics, const TopicRating& rating) {
    return std::any_of(topics.begin(), topics.end(), [&](const auto& one) {
        return one.subject == rating.subject && one.topic == rating.topic;
    });
}

bool has_check(const std::vector<TopicToCheck>& checks, const TopicToCheck& check) {
    return std::any_of(checks.begin(), checks.end(), [&](const TopicToCheck& one) {
        return one.subject == check.subject && one.topic == check.topic;
    });
}

bool is_let_go(const Candidate& candidate, const TopicRating& rating) {
    return steering_of(candidate, WorkPurpose::relearn, rating.subject, rating.topic).let_go.has_value();
}

bool add_not_understood(WorkToPlace& work, const Candidate& candidate, const TopicRating& rating, Day today) {
    const int done = pieces_relearned(candidate, rating);
    const DaySpan week = week_before_exam(candidate, rating.subject, today);
    for (int piece = done + 1; piece <= TopicToRelearn::pieces; ++piece)
        work.topics.push_back({rating.subject, rating.topic, Marks(0), week, piece,
                               exam_ahead(candidate.exams, rating.subject, today)});
    return done < TopicToRelearn::pieces;
}

/// Whether a drawn paper with a part on the topic was sat on the day of the rating: it is taken for its
/// check.
bool was_checked_at_once(const Candidate& candidate, const TopicRating& rating, const PaperIds& drawn) {
    return std::any_of(candidate.sittings.begin(), candidate.sittings.end(),
                       [&](const SittingRecord& record) {
                           const std::vector<Part>& parts = record.paper->parts();
                           return record.sitting.day == rating.day && drawn.count(record.paper->id()) > 0 &&
                                  record.paper->subject() == rating.subject &&
                                  std::any_of(parts.begin(), parts.end(),
                                              [&](const Part& part) { return part.topic == rating.topic; });
                       });
}

bool add_shaky(WorkToPlace& work, const Candidate& candidate, const TopicRating& rating,
               const PaperIds& drawn, Day today) {
    if (was_checked_at_once(candidate, rating, drawn) ||
        was_tried_after(candidate, rating.subject, rating.topic, rating.day) ||
        relearned_in_full(candidate, rating.subject, rating.topic) >= rating.day)
        return false;
    const DaySpan week = week_before_exam(candidate, rating.subject, today);
    const WindowByExams by{exam_ahead(candidate.exams, rating.subject, today), Window{week.first, week.last}};
    work.checks.push_back({rating.subject, rating.topic, rating.day, by, false, {rating.topic}});
    return true;
}

/// At most one sheet of them, in this week.
void keep_one_sheet(std::vector<DueFact>& due, const std::vector<Fact>& facts,
                    const std::vector<TopicToRelearn>& topics, Day today) {
    const auto is_of_first = [&](const DueFact& one) {
        const Fact* const fact = find_fact(facts, one.fact);
        return fact && !topics.empty() && fact->subject == topics.front().subject &&
               fact->topic == topics.front().topic;
    };
    std::stable_partition(due.begin(), due.end(), is_of_first);
    if (std::any_of(due.begin(), due.end(), is_of_first))
        due.erase(std::find_if_not(due.begin(), due.end(), is_of_first), due.end());
    const auto groups = recall_groups(facts, due);
    const std::vector<FactId> kept = groups.empty() ? std::vector<FactId>() : groups.front().facts;
    due.erase(std::remove_if(due.begin(), due.end(),
                             [&](const DueFact& one) {
                                 return std::find(kept.begin(), kept.end(), one.fact) == kept.end();
                             }),
              due.end());
    for (DueFact& one : due)
        one.possible_days->last = std::min(one.possible_days->last, today + rated_within - Days{1});
}

/// The halves of a topic are one thing.
void keep_topics(std::vector<TopicToRelearn>& topics, std::size_t count) {
    std::set<std::pair<std::string, std::string>> kept;
    topics.erase(std::remove_if(topics.begin(), topics.end(),
                                [&](const TopicToRelearn& one) {
                                    const std::pair name(one.subject, one.topic);
                                    if (kept.count(name) == 0 && kept.size() == count)
                                        return true;
                                    kept.insert(name);
                                    return false;
                                }),
                 topics.end());
}

std::size_t count_of_topics(const std::vector<TopicToRelearn>& topics) {
    std::set<std::pair<std::string, std::string>> names;
    for (const TopicToRelearn& one : topics)
        names.emplace(one.subject, one.topic);
    return names.size();
}

/// This week, and without room for what it will bring.
void keep_papers(WorkToPlace& work, std::size_t count, Day today) {
    work.papers.resize(std::min(work.papers.size(), count));
    for (PaperToSit& paper : work.papers) {
        paper.piece.spans.insert(paper.piece.spans.begin(), {today, today + rated_within - Days{1}});
        paper.piece.near.reset();
        paper.piece.expected = {};
    }
    for (SubjectAhead& subject : work.subjects)
        subject.papers = static_cast<std::size_t>(
            std::count_if(work.papers.begin(), work.papers.end(),
                          [&](const PaperToSit& paper) { return paper.subject == subject.subject; }));
    work.subjects.erase(std::remove_if(work.subjects.begin(), work.subjects.end(),
                                       [](const SubjectAhead& subject) { return subject.papers == 0; }),
                        work.subjects.end());
}

bool would_check(const PaperToSit& to_sit, const TopicToCheck& check) {
    if (!to_sit.paper || to_sit.subject != check.subject)
        return false;
    const std::vector<Part>& parts = to_sit.paper->parts();
    return std::any_of(parts.begin(), parts.end(), [&](const Part& part) {
        return std::count(check.topics.begin(), check.topics.end(), part.topic) > 0;
    });
}

/// Takes those out for which nothing can be drawn.
void take_out_unchecked(WorkToPlace& work, const TimetableRequest& request) {
    if (!request.unseen)
        return;
    const auto out =
        std::stable_partition(work.checks.begin(), work.checks.end(), [&](const TopicToCheck& check) {
            return is_on_desk(check, request.topics_on_desk) || can_be_drawn(check, *request.unseen);
        });
    for (auto check = out; check != work.checks.end(); ++check) {
        UncheckedTopic& unchecked = work.unchecked.emplace_back();
        unchecked.subject = check->subject;
        unchecked.topic = check->topic;
        for (const PaperToSit& paper : work.papers)
            if (would_check(paper, *check))
                unchecked.papers.push_back(paper.paper->id());
    }
    work.checks.erase(out, work.checks.end());
}

/// What is on the desk is marked before there is another check in its place.
void take_out_on_desk(WorkToPlace& work, const std::vector<TopicOnDesk>& on_desk) {
    const auto out = std::remove_if(work.checks.begin(), work.checks.end(),
                                    [&](const TopicToCheck& check) { return is_on_desk(check, on_desk); });
    work.first_things -= std::min(work.first_things, static_cast<std::size_t>(work.checks.end() - out));
    work.checks.erase(out, work.checks.end());
}

/// A paper drawn for a check is sat in the check's own time; it keeps its own where a day was asked for.
void take_out_drawn_for_checks(WorkToPlace& work, const std::vector<UnseenPaper>& drawn) {
    for (const TopicToCheck& check : work.checks) {
        const UnseenPaper* const paper = find_drawn(check, drawn);
        const auto found =
            std::find_if(work.papers.begin(), work.papers.end(), [&](const PaperToSit& to_sit) {
                return paper && to_sit.paper && to_sit.paper->id() == paper->id && !to_sit.piece.wish;
            });
        if (found == work.papers.end())
            continue;
        for (SubjectAhead& subject : work.subjects)
            if (subject.subject == found->subject)
                --subject.papers;
        work.papers.erase(found);
    }
}

} // namespace

void add_rated_work(WorkToPlace& work, const Candidate& candidate, const std::vector<TopicRating>& ratings,
                    const PaperIds& drawn, Day today) {
    std::size_t count = 0;
    for (const Understanding understanding : {Understanding::not_understood, Understanding::shaky}) {
        if (is_of_first_days(candidate, ratings)) // keep_first_things() chooses among both
            count = 0;
        for (const TopicRating& rating : ratings) {
            if (count == max_things || rating.understanding != understanding ||
                has_topic(work.topics, rating) || is_let_go(candidate, rating))
                continue;
            count += understanding == Understanding::shaky
                         ? add_shaky(work, candidate, rating, drawn, today)
                         : add_not_understood(work, candidate, rating, today);
        }
    }
}

bool is_of_first_days(const Candidate& candidate, const std::vector<TopicRating>& ratings) {
    return candidate.sittings.empty() && !ratings.empty();
}

void keep_first_things(WorkToPlace& work, const std::vector<Fact>& facts, Day today) {
    keep_one_sheet(work.due, facts, work.topics, today);
    const std::size_t sheets = work.due.empty() ? 0 : 1;
    const std::size_t practice = work.checks.empty() && work.papers.empty() ? 0 : 1;
    keep_topics(work.topics, max_things - sheets - practice);
    const std::size_t others = count_of_topics(work.topics) + sheets;
    work.checks.resize(std::min(work.checks.size(), max_things - others));
    const std::size_t papers = work.checks.empty() ? std::min(practice, max_things - others) : 0;
    keep_papers(work, papers, today);
    work.first_things = others + work.checks.size() + work.papers.size();
}

void put_first_things_in_order(std::vector<WorkPiece>& pieces, const std::vector<std::size_t>& item_of,
                               const std::vector<WorkItem>& items) {
    const auto rank = [&](std::size_t piece) {
        const WorkKind kind = items[item_of[piece]].kind();
        return kind == WorkKind::relearn ? 0 : kind == WorkKind::recall ? 1 : 2;
    };
    for (std::size_t i = 0; i < pieces.size(); ++i)
        for (std::size_t before = 0; before < pieces.size(); ++before)
            if (rank(before) < rank(i))
                pieces[i].after.push_back(before);
}

WorkToPlace work_to_place(const Candidate& candidate, const TimetableRequest& request, Day today,
                          std::vector<DueFact> due, const std::vector<Retry>& retries) {
    WorkToPlace work;
    work.topics =
        topics_to_relearn(candidate, request.weak ? *request.weak : weak_topics(candidate), retries, today);
    work.due = std::move(due);
    SittingsAhead ahead = sittings_ahead(candidate, sittings_of(request), today);
    work.papers = std::move(ahead.papers);
    work.subjects = std::move(ahead.subjects);
    add_rated_work(work, candidate, request.ratings, request.drawn, today);
    if (is_of_first_days(candidate, request.ratings)) {
        take_out_unchecked(work, request);
        keep_first_things(work, request.facts, today);
    }
    for (TopicToCheck& check : topics_to_check(candidate, work.topics, today))
        if (!has_check(work.checks, check))
            work.checks.push_back(std::move(check));
    take_out_on_desk(work, request.topics_on_desk);
    take_out_unchecked(work, request);
    take_out_drawn_for_checks(work, request.drawn_unseen);
    return work;
}

} // namespace inkturn
