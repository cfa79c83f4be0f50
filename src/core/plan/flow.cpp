#include "core/plan/flow.hpp"

#include <algorithm>
#include <deque>
#include <limits>
#include <map>
#include <utility>

namespace inkturn::board {
namespace {

constexpr Amount unlimited = std::numeric_limits<Amount>::max() / 4;

/// The greatest flow by shortest paths in layers (Dinitz 1970).
class Flow {
  public:
    explicit Flow(std::size_t nodes) : edges_(nodes), layer_(nodes), next_(nodes) {}

    void connect(std::size_t from, std::size_t to, Amount most) {
        edges_[from].push_back({to, edges_[to].size(), most});
        edges_[to].push_back({from, edges_[from].size() - 1, 0});
    }

    Amount greatest(std::size_t source, std::size_t sink) {
        Amount sum = 0;
        while (lay(source, sink)) {
            std::fill(next_.begin(), next_.end(), 0);
            while (const Amount pushed = push(source, sink, unlimited))
                sum += pushed;
        }
        return sum;
    }

  private:
    struct Edge {
        std::size_t to;
        std::size_t back; ///< position of the opposite edge there
        Amount left;
    };

    bool lay(std::size_t source, std::size_t sink) {
        std::fill(layer_.begin(), layer_.end(), std::optional<std::size_t>());
        layer_[source] = 0;
        std::deque<std::size_t> waiting{source};
        while (!waiting.empty()) {
            const std::size_t node = waiting.front();
            waiting.pop_front();
            for (const Edge& edge : edges_[node])
                if (edge.left > 0 && !layer_[edge.to]) {
                    layer_[edge.to] = *layer_[node] + 1;
                    waiting.push_back(edge.to);
                }
        }
        return layer_[sink].has_value();
    }

    Amount push(std::size_t node, std::size_t sink, Amount most) {
        if (node == sink)
            return most;
        for (std::size_t& i = next_[node]; i < edges_[node].size(); ++i) {
            Edge& edge = edges_[node][i];
            if (edge.left == 0 || layer_[edge.to] != *layer_[node] + 1)
                continue;
            if (const Amount pushed = push(edge.to, sink, std::min(most, edge.left))) {
                edge.left -= pushed;
                edges_[edge.to][edge.back].left += pushed;
                return pushed;
            }
        }
        return 0;
    }

    std::vector<std::vector<Edge>> edges_;
    std::vector<std::optional<std::size_t>> layer_;
    std::vector<std::size_t> next_;
};

/// Work that may take the same days.
struct Same {
    Amount work = 0;
    std::vector<Index> days;
    bool paper = false;
};

class Kinds {
  public:
    explicit Kinds(const Board& board) : board_(board) {}

    void add(Index i) {
        const Item& item = board_.item(i);
        std::vector<Index> days;
        for (const Span& span : item.spans)
            for (Index t = span.first; t <= span.last; ++t)
                if (board_.fits(i, t))
                    days.push_back(t);
        add(std::move(days), item.paper, item.work);
    }

    void add(const ToCome& coming) {
        std::vector<Index> days;
        for (const Span& span : coming.spans)
            for (Index t = span.first; t <= span.last; ++t)
                if (board_.room(t) >= coming.work && !board_.day(t).exam)
                    days.push_back(t);
        add(std::move(days), false, coming.work);
    }

    std::vector<Same> all() const {
        std::vector<Same> kinds;
        for (const auto& [days, work] : works_)
            kinds.push_back({work, days.second, days.first});
        return kinds;
    }

  private:
    void add(std::vector<Index> days, bool paper, Amount work) {
        std::sort(days.begin(), days.end());
        days.erase(std::unique(days.begin(), days.end()), days.end());
        works_[{paper, std::move(days)}] += work;
    }

    const Board& board_;
    std::map<std::pair<bool, std::vector<Index>>, Amount> works_;
};

} // namespace

Amount seconds_without_day(const Board& board, const std::vector<Index>& items,
                           const std::vector<ToCome>& to_come) {
    Kinds kinds(board);
    std::vector<Amount> longest(board.days(), 0); // paper that may fall on the day
    for (const Index i : items) {
        kinds.add(i);
        if (board.item(i).paper)
            for (Index t = 0; t < board.days(); ++t)
                if (board.fits(i, t))
                    longest[t] = std::max(longest[t], board.item(i).work);
    }
    for (const ToCome& coming : to_come)
        kinds.add(coming);

    const std::vector<Same> all = kinds.all();
    const std::size_t days = board.days();
    const std::size_t source = 2 * days + all.size();
    const std::size_t sink = source + 1;
    Flow flow(sink + 1);
    Amount work = 0;
    for (std::size_t t = 0; t < days; ++t) {
        flow.connect(t, sink, std::max<Amount>(board.room(static_cast<Index>(t)), 0));
        flow.connect(days + t, t, longest[t]);
    }
    for (std::size_t k = 0; k < all.size(); ++k) {
        work += all[k].work;
        flow.connect(source, 2 * days + k, all[k].work);
        for (const Index t : all[k].days)
            flow.connect(2 * days + k, all[k].paper ? days + t : t, unlimited);
    }
    return work - flow.greatest(source, sink);
}

} // namespace inkturn::board
