#pragma once

#include "inkturn/paper/copies.hpp"
#include "inkturn/paper/paper.hpp"

#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// Which question each copy came from.
class FirstCopies {
  public:
    explicit FirstCopies(const std::vector<Copies>& copies) {
        for (const Copies& same : copies)
            for (const QuestionName& copy : same)
                first_of_.emplace(copy, same.front());
    }

    /// Of its copies; itself where there are none.
    const QuestionName& of(const QuestionName& name) const {
        const auto found = first_of_.find(name);
        return found == first_of_.end() ? name : found->second;
    }

    bool is_first(const QuestionName& name) const { return of(name) == name; }

    /// The firsts of all questions of which a copy, or they themselves, are in one of the papers with these
    /// ids.
    std::set<QuestionName> firsts_in(const std::vector<std::shared_ptr<const Paper>>& papers,
                                     const std::set<std::string>& ids) const {
        std::set<QuestionName> firsts;
        for (const auto& paper : papers)
            if (ids.count(paper->id()) > 0)
                for (const Question& question : paper->questions())
                    firsts.insert(of({paper->id(), question.label}));
        return firsts;
    }

    /// By the first of its copies, each question that one of the papers with these ids holds: the id of its
    /// own paper if that is one, else of the first.
    std::map<QuestionName, std::string> papers_with(const std::vector<std::shared_ptr<const Paper>>& papers,
                                                    const std::set<std::string>& ids) const {
        std::map<QuestionName, std::string> holding;
        for (const auto& paper : papers) {
            if (ids.count(paper->id()) == 0)
                continue;
            for (const Question& question : paper->questions()) {
                const QuestionName name{paper->id(), question.label};
                if (is_first(name))
                    holding[name] = paper->id();
                else
                    holding.emplace(of(name), paper->id());
            }
        }
        return holding;
    }

  private:
    std::map<QuestionName, QuestionName> first_of_;
};

/// The paper for this question; empty where there is none.
inline std::string paper_in(const std::map<QuestionName, std::string>& papers, const QuestionName& first) {
    const auto found = papers.find(first);
    return found == papers.end() ? "" : found->second;
}

} // namespace inkturn
