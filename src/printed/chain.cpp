#include "printed/chain.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr Points same_edge{3};
constexpr int max_number_gap = 4;          // from a number to the next that is there
constexpr std::size_t max_chain_ends = 24; // ends of chains for each number
constexpr double worth_of_rung = 1;
constexpr double worth_of_marks = 2; // between a number and the next
constexpr double cost_of_no_marks = 0.5;
constexpr double cost_of_missing = 2; // for each number left out
constexpr double cost_of_other_edge = 3.5;
constexpr double cost_of_other_style = 1;

constexpr double worth_to_be_later = 0.6; // `7 (a)` comes before `7 (b)`, however little speaks for it

/// A chain that ends in a rung.
struct Ending {
    std::size_t rung;
    double worth;
};

/// Labels of one style may be aligned at their right or centred in a column as well.
bool share_edge(const Rung& a, const Rung& b) {
    return abs(a.left - b.left) <= same_edge || abs(a.line_left - b.line_left) <= same_edge ||
           (a.style == b.style &&
            (abs(a.right - b.right) <= same_edge || abs(a.left + a.right - b.left - b.right) <= same_edge));
}

class Search {
  public:
    Search(const std::vector<Rung>& rungs, const MarksBefore& marks, std::size_t end)
        : rungs_(rungs), marks_(marks), end_(end), before_(rungs.size()) {}

    Chain best() {
        for (std::size_t i = 0; i < rungs_.size(); ++i)
            keep({i, worth_at(i)});
        std::optional<Ending> best;
        for (const auto& [place, endings] : endings_)
            for (const Ending& ending : endings) {
                const double whole = ending.worth + after(rungs_[ending.rung], end_);
                if (!best || whole > best->worth)
                    best = Ending{ending.rung, whole};
            }
        Chain chain;
        chain.end = end_;
        chain.worth = best ? best->worth : 0;
        std::optional<std::size_t> at = best ? std::optional<std::size_t>(best->rung) : std::nullopt;
        for (std::size_t i = rungs_.size(); i-- > 0;) {
            (at == i ? chain.rungs : chain.others).push_back(rungs_[i]);
            at = at == i ? before_[i] : at;
        }
        std::reverse(chain.rungs.begin(), chain.rungs.end());
        std::reverse(chain.others.begin(), chain.others.end());
        return chain;
    }

  private:
    using Section = std::optional<int>;

    /// What speaks for the rung in the lines after it and before `to`.
    double after(const Rung& rung, std::size_t to) const {
        return marks_[to] > marks_[rung.line] ? worth_of_marks : -cost_of_no_marks;
    }

    double step(const Ending& from, const Rung& to) const {
        const Rung& rung = rungs_[from.rung];
        return from.worth + after(rung, to.line) - (share_edge(rung, to) ? 0 : cost_of_other_edge) -
               (rung.style == to.style ? 0 : cost_of_other_style);
    }

    /// The worth of the best chain that ends in the rung; notes what comes before it.
    double worth_at(std::size_t position) {
        const Rung& rung = rungs_[position];
        double best = -cost_of_missing * (rung.number - 1);
        const auto consider = [&](const Ending& ending, double cost) {
            const double worth = step(ending, rung) - cost;
            if (worth > best) {
                best = worth;
                before_[position] = ending.rung;
            }
        };
        for (int back = 1; back <= max_number_gap && back < rung.number; ++back)
            if (const auto found = endings_.find({rung.section, rung.number - back}); found != endings_.end())
                for (const Ending& ending : found->second)
                    consider(ending, cost_of_missing * (back - 1));
        if (rung.number == 1 && rung.section)
            for (const auto& [section, ending] : section_endings_)
                if (section && section < rung.section)
                    consider(ending, cost_of_missing * std::max(0, *rung.section - *section - 1));
        return best + worth_of_rung + rung.worth;
    }

    /// Whether a number 1 begins the questions, and not the one before it, which begins a list of
    /// instructions: there are no marks between them.
    bool begins_after_list(const Rung& earlier, const Rung& later) const {
        if (later.number != 1 || later.is_alone || marks_[earlier.line] != marks_[later.line])
            return false;
        const auto second = last_second_.find(later.section);
        return second != last_second_.end() && rungs_[second->second].line > earlier.line &&
               share_edge(rungs_[second->second], earlier);
    }

    /// Of chains that end at one number, edge and style the best is kept, the earliest if tied.
    void keep(Ending ending) {
        const Rung& rung = rungs_[ending.rung];
        if (rung.number == 2 && !rung.is_alone)
            last_second_[rung.section] = ending.rung;
        const auto [section, is_new] = section_endings_.try_emplace(rung.section, ending);
        if (!is_new && ending.worth > section->second.worth)
            section->second = ending;
        std::vector<Ending>& endings = endings_[{rung.section, rung.number}];
        for (Ending& other : endings) {
            const Rung& kept = rungs_[other.rung];
            if (kept.style == rung.style && share_edge(kept, rung)) {
                if (ending.worth > other.worth + worth_to_be_later || begins_after_list(kept, rung))
                    other = ending;
                return;
            }
        }
        if (endings.size() < max_chain_ends)
            endings.push_back(ending);
    }

    const std::vector<Rung>& rungs_;
    const MarksBefore& marks_;
    std::size_t end_;
    std::vector<std::optional<std::size_t>> before_;
    std::map<std::pair<Section, int>, std::vector<Ending>> endings_; ///< by section and number
    std::map<Section, std::size_t> last_second_;                     ///< each section's last 2
    std::map<Section, Ending> section_endings_;                      ///< the best of each section
};

} // namespace

std::vector<Gap> gaps_in(const Chain& chain) {
    std::vector<Gap> gaps;
    int expected = 1;
    for (std::size_t i = 0; i < chain.rungs.size(); ++i) {
        const Rung& rung = chain.rungs[i];
        if (i > 0 && rung.section != chain.rungs[i - 1].section)
            expected = 1;
        if (rung.number > expected)
            gaps.push_back({expected, rung.number - 1, rung});
        expected = rung.number + 1;
    }
    return gaps;
}

Chain best_chain(const std::vector<Rung>& rungs, const MarksBefore& marks, std::size_t end) {
    return Search(rungs, marks, end).best();
}

} // namespace inkturn::printed
