#include "inkturn/plan/choices.hpp"

#include "inkturn/plan/steering.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <tuple>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 3> choice_names{"on", "again", "drop"};

Seconds work_in(const Timetable& timetable) {
    Seconds sum = timetable.expected;
    for (const WorkItem& item : timetable.items)
        sum += item.duration;
    return sum;
}

/// A choice with the plan that there is without it.
struct Weighed {
    Choice choice;
    std::function<void(Candidate&)> take_back;
};

class ChoiceWeigher {
  public:
    ChoiceWeigher(const Candidate& candidate, const TimetableRequest& request, const Timetable& made,
                  Day today)
        : candidate_(candidate), request_(with_weak_topics(request, candidate)), made_(made), today_(today) {}

    std::vector<Choice> weighed() {
        for (const WorkItem& item : made_.items)
            add_on_plan(item);
        add_let_go();
        std::stable_sort(found_.begin(), found_.end(), [](const Weighed& a, const Weighed& b) {
            const auto key = [](const Choice& choice) {
                const auto days = choice.day.time_since_epoch().count();
                return std::tuple(choice.kind, choice.kind == ChoiceKind::on ? days : -days);
            };
            return key(a.choice) < key(b.choice);
        });
        std::vector<Choice> choices;
        for (Weighed& one : found_) {
            if (choices.size() < max_choices_weighed)
                one.choice.cost = cost_of(one);
            choices.push_back(std::move(one.choice));
        }
        return choices;
    }

  private:
    ChoiceCost cost_of(const Weighed& one) const {
        Candidate taken_back = candidate_;
        one.take_back(taken_back);
        const Timetable without = timetable(taken_back, request_, today_);
        return {work_in(made_) - work_in(without), made_.not_placed_time - without.not_placed_time,
                made_.outside - without.outside, made_.fullest_share, without.fullest_share};
    }

    void add_on_plan(const WorkItem& item) {
        if (const auto* retry = std::get_if<Retry>(&item.work))
            add(*retry);
        else if (const auto* paper = std::get_if<PaperToSit>(&item.work)) {
            if (paper->paper && paper->piece.wish)
                add_on(item, {WorkPurpose::sit, paper->subject, paper->paper->id()});
        } else if (const auto* topic = std::get_if<TopicToRelearn>(&item.work)) {
            const bool is_first = std::none_of(found_.begin(), found_.end(), [&](const Weighed& other) {
                return other.choice.work == WorkKind::relearn && other.choice.subject == topic->subject &&
                       other.choice.what == topic->topic;
            });
            if (is_first)
                add_on(item, {WorkPurpose::relearn, topic->subject, topic->topic});
        }
    }

    void add(const Retry& retry) {
        if (!retry.possible_days)
            return;
        Choice choice{ChoiceKind::on,    WorkKind::retry,     retry.paper->subject(),
                      to_text(retry.id), retry.dropped_on,    {},
                      retry.day,         retry.outside_window};
        if (retry.wanted) {
            choice.day = *retry.wanted;
            found_.push_back({choice, [id = retry.id](Candidate& candidate) {
                                  for (SteeredRetry& steered : candidate.steered_retries)
                                      if (is_of(steered, id))
                                          steered.steering.wanted.reset();
                                  give_up_day(candidate, id);
                              }});
        }
        if (retry.asked_again) {
            choice.kind = ChoiceKind::again;
            choice.day = retry.dropped_on;
            found_.push_back({std::move(choice), [id = retry.id](Candidate& candidate) {
                                  for (SittingRecord& record : candidate.sittings)
                                      if (record.id == id.sitting)
                                          take_back_turn(record, id);
                              }});
        }
    }

    template <typename Named>
    static bool is_of(const Named& named, const RetryId& id) {
        return named.sitting == id.sitting && named.question == id.question;
    }

    static void give_up_day(Candidate& candidate, const RetryId& id) {
        auto& days = candidate.placements;
        days.erase(std::remove_if(days.begin(), days.end(),
                                  [&](const Placement& placement) { return is_of(placement, id); }),
                   days.end());
    }

    static void take_back_turn(SittingRecord& record, const RetryId& id) {
        auto& asked = record.asked_again;
        asked.erase(std::remove_if(asked.begin(), asked.end(),
                                   [&](const AskedAgain& again) {
                                       return again.question == id.question && again.turn == id.turn;
                                   }),
                    asked.end());
    }

    void add_on(const WorkItem& item, const WorkName& work) {
        const auto wanted = steering_of(candidate_, work.what, work.subject, work.name).standing(today_);
        if (!wanted)
            return;
        found_.push_back(
            {{ChoiceKind::on, item.kind(), work.subject, work.name, *wanted, {}, item.day, false},
             [work](Candidate& candidate) {
                 for (SteeredWork& steered : candidate.steered_work)
                     if (is_of(steered, work))
                         steered.steering.wanted.reset();
                 auto& planned = candidate.planned;
                 planned.erase(std::remove_if(planned.begin(), planned.end(),
                                              [&](const PlannedWork& one) { return is_of(one, work); }),
                               planned.end());
             }});
    }

    template <typename Named>
    static bool is_of(const Named& named, const WorkName& work) {
        return named.what == work.what && named.subject == work.subject && named.name == work.name;
    }

    /// What would be to do if it were taken back.
    void add_let_go() {
        Candidate all = candidate_;
        for (SteeredWork& steered : all.steered_work)
            steered.steering.let_go.reset();
        const std::vector<TopicToRelearn> topics =
            topics_to_relearn(all, *request_.weak, retries_to_place(all, today_), today_);
        const std::vector<PaperToSit> papers = sittings_ahead(all, sittings_of(request_), today_).papers;
        for (SteeredRetry& steered : all.steered_retries)
            steered.steering.let_go.reset();
        for (const Retry& retry : retries_to_place(all, today_))
            if (retry.possible_days)
                add_let_go(retry);
        for (const SteeredWork& steered : candidate_.steered_work) {
            if (!steered.steering.let_go)
                continue;
            const WorkName work{steered.what, steered.subject, steered.name};
            if (work.what == WorkPurpose::sit ? is_among(papers, work) : is_among(topics, work))
                found_.push_back(
                    {let_go_choice(work.what == WorkPurpose::sit ? WorkKind::sit : WorkKind::relearn,
                                   work.subject, work.name, *steered.steering.let_go),
                     [work](Candidate& candidate) {
                         for (SteeredWork& one : candidate.steered_work)
                             if (is_of(one, work))
                                 one.steering.let_go.reset();
                     }});
        }
    }

    void add_let_go(const Retry& retry) {
        const auto let_go = steering_of(candidate_, retry.id.sitting, retry.id.question).let_go;
        if (let_go)
            found_.push_back(
                {let_go_choice(WorkKind::retry, retry.paper->subject(), to_text(retry.id), *let_go),
                 [id = retry.id](Candidate& candidate) {
                     for (SteeredRetry& steered : candidate.steered_retries)
                         if (is_of(steered, id))
                             steered.steering.let_go.reset();
                     give_up_day(candidate, id);
                 }});
    }

    static Choice let_go_choice(WorkKind kind, const std::string& subject, const std::string& what,
                                const LetGo& let_go) {
        return {ChoiceKind::let_go, kind, subject, what, let_go.day, let_go.reason};
    }

    static bool is_among(const std::vector<PaperToSit>& papers, const WorkName& work) {
        return std::any_of(papers.begin(), papers.end(), [&](const PaperToSit& paper) {
            return paper.paper && paper.paper->id() == work.name;
        });
    }

    static bool is_among(const std::vector<TopicToRelearn>& topics, const WorkName& work) {
        return std::any_of(topics.begin(), topics.end(), [&](const TopicToRelearn& topic) {
            return topic.subject == work.subject && topic.topic == work.name;
        });
    }

    const Candidate& candidate_;
    const TimetableRequest request_;
    const Timetable& made_;
    Day today_;
    std::vector<Weighed> found_;
};

} // namespace

std::string_view name(ChoiceKind kind) noexcept {
    return choice_names[static_cast<std::size_t>(kind)];
}

std::vector<Choice> choices(const Candidate& candidate, const TimetableRequest& request,
                            const Timetable& made, Day today) {
    return ChoiceWeigher(candidate, request, made, today).weighed();
}

} // namespace inkturn
