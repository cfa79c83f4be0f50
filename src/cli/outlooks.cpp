#include "cli/outlooks.hpp"

#include "cli/terminal.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/reading.hpp"

#include <algorithm>
#include <optional>
#include <set>

namespace inkturn {

std::vector<std::string> peers_of(const Store& store, const std::string& candidate) {
    std::set<std::string> codes{candidate};
    const std::vector<std::string> classes = store.classes_of(candidate);
    if (classes.empty())
        return store.candidates();
    for (const std::string& name : classes)
        for (std::string& member : store.members(name))
            codes.insert(std::move(member));
    return {codes.begin(), codes.end()};
}

Outlooks::Outlooks(const Context& context, const Store& store, const std::vector<std::string>& codes,
                   const std::string& of_class)
    : context_(context) {
    const Reading whole(store);
    papers_ = store.papers();
    copies_ = DrawnPapers::copies(store);
    const PaperIds of_its_papers = of_class.empty() ? PaperIds{} : PapersOnFile::of_class(store, of_class);
    const std::set<std::string> each(codes.begin(), codes.end());
    ProgressLine progress(context.err, "inkturn: reading marks", std::nullopt, context.quiet);
    for (const std::string& code : each) {
        progress.show_piece("candidate", candidates_.size() + 1, each.size());
        Candidate candidate = of_class.empty() ? store.candidate(code) : store.candidate_in(of_class, code);
        if (!of_class.empty())
            keep_sittings_of(of_its_papers, candidate);
        candidates_.push_back({{code, unseen_marks(candidate, copies_)},
                               reattempted_marks(candidate),
                               untried_topics(candidate)});
    }
}

const Outlook& Outlooks::in(const std::string& subject) const {
    std::unique_ptr<const Outlook>& outlook = by_subject_[subject];
    if (!outlook) {
        std::vector<CandidateMarks> marks;
        for (const Marks& one : candidates_)
            marks.push_back(one.unseen);
        ProgressLine progress(context_.err, "inkturn: working out topics", std::nullopt, context_.quiet);
        outlook = std::make_unique<const Outlook>(marks, subject, usual_papers(papers_, subject, copies_),
                                                  [&](double share) { progress.show_share(share); });
    }
    return *outlook;
}

std::vector<const Outlooks::Marks*> Outlooks::of(const std::vector<std::string>& codes) const {
    std::vector<const Marks*> named;
    for (const Marks& one : candidates_)
        if (std::find(codes.begin(), codes.end(), one.unseen.candidate) != codes.end())
            named.push_back(&one);
    return named;
}

TopicsFound Outlooks::topics_of(const std::vector<std::string>& codes, const std::string& subject,
                                Gain gain) const {
    std::vector<std::vector<PaperMarks>> unseen;
    std::vector<std::vector<PaperMarks>> again;
    for (const Marks* one : of(codes)) {
        unseen.push_back(one->unseen.papers);
        again.push_back(one->again);
    }
    TopicsFound found{diagnose(unseen, again, subject), 0, gain};
    for (const Marks* one : of(codes))
        add_relearned(found.topics, one->untried);
    std::map<std::string, std::optional<CandidateOutlook>> alone; // by subject, where one candidate is named
    for (TopicDiagnosis& topic : found.topics) {
        if (topic.topic.empty())
            continue;
        const Outlook& outlook = in(topic.subject);
        found.candidates = std::max(found.candidates, outlook.candidates());
        std::optional<TopicOutlook> on_topic;
        if (codes.size() == 1) {
            auto& candidate = alone[topic.subject];
            if (!candidate)
                candidate = outlook.find(codes.front());
            if (candidate)
                on_topic = candidate->on_topic(topic.topic, gain);
        } else {
            on_topic = outlook.average(codes, topic.topic, gain);
        }
        if (on_topic)
            add_outlook(topic, *on_topic);
    }
    sort_by_cost(found.topics);
    return found;
}

std::vector<std::string> Outlooks::with_marks(const std::vector<std::string>& codes,
                                              const std::string& subject) const {
    std::vector<std::string> with;
    for (const Marks* one : of(codes))
        if (std::any_of(one->unseen.papers.begin(), one->unseen.papers.end(), [&](const PaperMarks& marks) {
                return subject.empty() || marks.paper->subject() == subject;
            }))
            with.push_back(one->unseen.candidate);
    return with;
}

NextPaper next_paper_of(const Outlooks& outlooks, const std::string& code) {
    return [&outlooks, code](const std::string& subject) -> std::optional<UncertainShare> {
        const auto candidate = outlooks.in(subject).find(code);
        return candidate ? candidate->next_paper() : std::nullopt;
    };
}

} // namespace inkturn
