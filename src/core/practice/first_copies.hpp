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

  private:
    std::map<QuestionName, QuestionName> first_of_;
};

} // namespace inkturn
