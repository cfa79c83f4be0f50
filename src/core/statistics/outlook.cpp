#include "inkturn/statistics/outlook.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace inkturn {
namespace {

constexpr double days_in_a_span = 28; // see Evidence::Result

double time_of(Day day) {
    return static_cast<double>(day.time_since_epoch().count()) / days_in_a_span;
}

std::set<std::string> topics_in(const std::vector<std::shared_ptr<const Paper>>& papers) {
    std::set<std::string> topics;
    for (const auto& paper : papers)
        for (const Part& part : paper->parts())
            if (!part.topic.empty())
                topics.insert(part.topic);
    return topics;
}

bool was_drawn(const Paper& paper, const std::vector<Copies>& copies) {
    return std::any_of(copies.begin(), copies.end(), [&](const Copies& same) {
        return std::any_of(std::next(same.begin()), same.end(),
                           [&](const QuestionName& copy) { return copy.paper == paper.id(); });
    });
}

} // namespace

Gain::Gain(int percent) : percent_(percent) {
    if (percent < 1 || percent > 100)
        throw Error("an hour wins back 1 to 100 of 100 marks lost");
}

Marks UsualPapers::marks() const {
    std::vector<Marks> totals;
    for (const auto& paper : papers)
        totals.push_back(paper->marks());
    if (totals.empty())
        return Marks(0);
    const auto middle = totals.begin() + static_cast<std::ptrdiff_t>(totals.size() / 2);
    std::nth_element(totals.begin(), middle, totals.end());
    return *middle;
}

double UsualPapers::share_of(const std::string& topic) const {
    Marks on_topic;
    Marks all;
    for (const auto& paper : papers)
        for (const Part& part : paper->parts()) {
            all += part.max;
            if (part.topic == topic)
                on_topic += part.max;
        }
    return all == Marks(0) ? 0 : static_cast<double>(on_topic.count()) / all.count();
}

UsualPapers usual_papers(const std::vector<std::shared_ptr<const Paper>>& papers, std::string_view subject,
                         const std::vector<Copies>& copies) {
    UsualPapers usual;
    for (const auto& paper : papers)
        if (paper->subject() == subject && !was_drawn(*paper, copies))
            usual.papers.push_back(paper);
    return usual;
}

/// Numbers for what the marks name.
struct Outlook::Numbers {
    std::map<std::string, std::size_t> candidates;
    std::map<std::string, std::size_t> topics;
    std::map<std::pair<std::string, std::size_t>, std::size_t> parts; ///< by paper's id and position
    Evidence evidence;

    Numbers(const std::vector<CandidateMarks>& all, std::string_view subject, const UsualPapers& usual) {
        std::set<std::string> names = topics_in(usual.papers);
        for (const CandidateMarks& one : all)
            for (const PaperMarks& marks : one.papers)
                if (marks.paper->subject() == subject)
                    for (const Part& part : marks.paper->parts())
                        if (!part.topic.empty())
                            names.insert(part.topic);
        for (const std::string& name : names)
            topics.emplace(name, topics.size());
        evidence.topics = topics.size();
        for (const CandidateMarks& one : all) {
            const std::size_t candidate = candidates.emplace(one.candidate, candidates.size()).first->second;
            for (const PaperMarks& marks : one.papers)
                if (marks.paper->subject() == subject)
                    add(candidate, marks);
        }
        evidence.candidates = candidates.size();
    }

    Evidence::Part described(const Part& part) const {
        if (part.topic.empty())
            return {part.max, std::nullopt};
        return {part.max, topics.at(part.topic)};
    }

  private:
    void add(std::size_t candidate, const PaperMarks& marks) {
        check_covers(*marks.paper, marks.parts);
        for (std::size_t i = 0; i < marks.parts.size(); ++i) {
            if (!marks.parts[i].counts())
                continue;
            const auto [at, is_new] = parts.try_emplace({marks.paper->id(), i}, evidence.parts.size());
            if (is_new)
                evidence.parts.push_back(described(marks.paper->parts()[i]));
            evidence.results.push_back({candidate, at->second, marks.parts[i].in_time(), time_of(marks.day)});
        }
    }
};

Outlook::Outlook(const std::vector<CandidateMarks>& candidates, std::string_view subject, UsualPapers usual,
                 const HowFar& told)
    : numbers_(std::make_shared<const Numbers>(candidates, subject, usual)),
      abilities_(numbers_->evidence, told),
      usual_(std::move(usual)) {}

TopicOutlook Outlook::outlook_on(const UncertainShare& share, const std::string& topic, Gain gain) const {
    const double marks = usual_.marks().count() * usual_.share_of(topic);
    const double expected = share.mean();
    const double lost = marks * (1 - expected);
    return {expected, share.range(0.8), share.below(TopicOutlook::sound_share), lost, gain.share() * lost};
}

std::optional<CandidateOutlook> Outlook::find(const std::string& code) const {
    const auto candidate = numbers_->candidates.find(code);
    if (candidate == numbers_->candidates.end())
        return std::nullopt;
    return CandidateOutlook(*this, abilities_.of(candidate->second));
}

std::optional<TopicOutlook> Outlook::average(const std::vector<std::string>& codes, const std::string& topic,
                                             Gain gain) const {
    const auto known = numbers_->topics.find(topic);
    std::vector<std::size_t> candidates;
    for (const std::string& code : codes)
        if (const auto found = numbers_->candidates.find(code); found != numbers_->candidates.end())
            candidates.push_back(found->second);
    if (known == numbers_->topics.end() || candidates.empty())
        return std::nullopt;
    return outlook_on(abilities_.average(candidates, known->second), topic, gain);
}

std::optional<double> Outlook::part_ease(const std::string& paper, std::size_t part) const {
    const auto found = numbers_->parts.find({paper, part});
    return found == numbers_->parts.end() ? std::nullopt : abilities_.part_ease(found->second);
}

std::optional<TopicOutlook> CandidateOutlook::on_topic(const std::string& topic, Gain gain) const {
    const auto found = outlook_->numbers_->topics.find(topic);
    if (found == outlook_->numbers_->topics.end())
        return std::nullopt;
    return outlook_->outlook_on(ability_.on_topic(found->second), topic, gain);
}

std::optional<UncertainShare> CandidateOutlook::next_paper() const {
    std::vector<UncertainShare> like;
    for (const auto& paper : outlook_->usual_.papers) {
        std::vector<Evidence::Part> parts;
        for (const Part& part : paper->parts())
            parts.push_back(outlook_->numbers_->described(part));
        like.push_back(ability_.in_paper(parts));
    }
    if (like.empty())
        return std::nullopt;
    return mixture(like);
}

} // namespace inkturn
