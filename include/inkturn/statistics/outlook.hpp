#pragma once

#include "inkturn/base/how_far.hpp"
#include "inkturn/base/interval.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/statistics/abilities.hpp"
#include "inkturn/statistics/topic.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {

/// How much of what a topic costs a candidate an hour's work on it is taken to win back: an assumption, see
/// docs/method.md.
class Gain {
  public:
    static constexpr int usual_percent = 20;

    Gain() = default;
    /// Of the marks lost: 1 to 100. Throws Error.
    explicit Gain(int percent);

    int percent() const { return percent_; }
    double share() const { return percent_ / 100.0; }

  private:
    int percent_ = usual_percent;
};

/// What is to be expected of a candidate, or on average of a class's candidates, on a topic.
struct TopicOutlook {
    double share;         ///< in time, of the marks of new parts; 0 to 1
    Interval range;       ///< 80%
    double below;         ///< the chance that the share is below 0.80
    double marks_a_paper; ///< lost on the topic in the subject's usual paper
    double won_back;      ///< of these, by an hour that teaches what Gain says

    static constexpr double sound_share = 0.8;
};

/// The papers of a subject that show what the next one may be like.
struct UsualPapers {
    std::vector<std::shared_ptr<const Paper>> papers;

    Marks marks() const;                             ///< the median total; 0 without a paper
    double share_of(const std::string& topic) const; ///< of all their marks, 0 to 1
};

/// Those of the subject that were not drawn.
UsualPapers usual_papers(const std::vector<std::shared_ptr<const Paper>>& papers, std::string_view subject,
                         const std::vector<Copies>& copies);

/// A candidate's unseen marks.
struct CandidateMarks {
    std::string candidate; ///< code
    std::vector<PaperMarks> papers;
};

class CandidateOutlook;

/// What may be foreseen of candidates in one subject, from the marks that they and others earned in time in
/// parts they had not seen before.
class Outlook {
  public:
    /// Marks in papers of other subjects are left out.
    Outlook(const std::vector<CandidateMarks>& candidates, std::string_view subject, UsualPapers usual,
            const HowFar& told = {});

    /// Those whose marks the figures rest on.
    std::size_t candidates() const { return abilities_.candidates(); }

    /// Of one of these candidates, for as long as this lasts.
    std::optional<CandidateOutlook> find(const std::string& code) const;

    /// On average over those of the candidates that are among these. Nothing where none is, or no paper has
    /// the topic.
    std::optional<TopicOutlook> average(const std::vector<std::string>& codes, const std::string& topic,
                                        Gain gain) const;

    /// How much easier a part was than others of its topic, as a share of its marks; nothing where fewer than
    /// two candidates did it.
    std::optional<double> part_ease(const std::string& paper, std::size_t part) const;

  private:
    friend class CandidateOutlook;
    struct Numbers;
    TopicOutlook outlook_on(const UncertainShare& share, const std::string& topic, Gain gain) const;

    std::shared_ptr<const Numbers> numbers_;
    Abilities abilities_;
    UsualPapers usual_;
};

/// What may be foreseen of one candidate.
class CandidateOutlook {
  public:
    /// Nothing where no paper has the topic.
    std::optional<TopicOutlook> on_topic(const std::string& topic, Gain gain) const;

    /// The share of the next unseen paper's marks, if it is like one of the usual papers; nothing without
    /// one.
    std::optional<UncertainShare> next_paper() const;

  private:
    friend class Outlook;
    CandidateOutlook(const Outlook& outlook, Ability ability)
        : outlook_(&outlook), ability_(std::move(ability)) {}

    const Outlook* outlook_;
    Ability ability_;
};

} // namespace inkturn
