#pragma once

#include "cli/context.hpp"
#include "inkturn/grades/prediction.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "inkturn/statistics/outlook.hpp"
#include "inkturn/store/store.hpp"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace inkturn {

/// Whose marks say what a candidate can do: the members of all the candidate's classes, or everybody on file
/// where there are none. The candidate is among them. Ascending.
std::vector<std::string> peers_of(const Store& store, const std::string& candidate);

/// Topics with their outlook, the costliest first.
struct TopicsFound {
    std::vector<TopicDiagnosis> topics;
    std::size_t candidates; ///< whose marks the outlook rests on; of several subjects, in the one with most
    Gain gain;
};

/// What may be foreseen of some candidates on file, worked out for a subject when it is asked for.
class Outlooks {
  public:
    /// By the sittings that count in a class's statistics, if one is named. Long work is shown in this
    /// context, which must outlive it.
    Outlooks(const Context& context, const Store& store, const std::vector<std::string>& codes,
             const std::string& of_class = {});

    /// Lasts as long as this.
    const Outlook& in(const std::string& subject) const;

    /// How the topics stand of those of the candidates who are named, in a subject, or in all if it is
    /// empty.
    TopicsFound topics_of(const std::vector<std::string>& codes, const std::string& subject, Gain gain) const;

    /// Those of the named who have marks in the subject, or in any if it is empty.
    std::vector<std::string> with_marks(const std::vector<std::string>& codes,
                                        const std::string& subject) const;

  private:
    struct Marks {
        CandidateMarks unseen;
        std::vector<PaperMarks> again;
        std::vector<UntriedTopic> untried;
    };
    std::vector<const Marks*> of(const std::vector<std::string>& codes) const;

    const Context& context_;
    std::vector<Marks> candidates_; ///< by code
    std::vector<std::shared_ptr<const Paper>> papers_;
    std::vector<Copies> copies_;
    mutable std::map<std::string, std::unique_ptr<const Outlook>> by_subject_;
};

/// What the next paper may bring one of the candidates, for as long as `outlooks` lasts.
NextPaper next_paper_of(const Outlooks& outlooks, const std::string& code);

} // namespace inkturn
