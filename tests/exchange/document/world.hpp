#pragma once

#include "exchange/document/stores.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/plan.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace inkturn::test {

struct KnownSitting {
    std::string candidate;
    std::shared_ptr<const Paper> paper;
    Sitting sitting;
    std::vector<Reattempt> reattempts;                 ///< by question, then turn
    std::map<std::pair<std::string, int>, Day> days{}; ///< by question and turn
    std::map<std::string, Reattempt> begun{};          ///< by question: its next turn, not marked through
    /// A store that knows some of the world may hold it, or one of its re-attempts, as a script; one that is
    /// never a script may be known without its clock.
    bool at_desk = false;
    bool may_run = false; ///< as a script: at most one of a candidate's
};

/// A store may know it without its log.
struct KnownSheet {
    std::string candidate;
    Day day;                         ///< one a candidate
    std::map<int, std::size_t> rows; ///< positions of the world's facts by number of the row
    std::optional<Sheet::Log> log;
};

/// All that could be known; a store may know some of it.
struct World {
    std::vector<std::shared_ptr<const Paper>> papers;
    std::vector<KnownSitting> sittings;
    std::vector<KnownSitting> begun; ///< not marked through
    std::map<std::string, Availability> availabilities;
    std::vector<std::pair<std::string, Relearned>> relearned; ///< by whom; none twice
    std::map<std::string, PlanWishes> wishes;                 ///< none is the default
    std::map<std::string, std::vector<std::string>> classes;
    std::map<std::string, StatedTimes> class_times;
    std::vector<Exam> exams;
    std::vector<BoundarySet> boundaries;
    std::vector<Fact> facts; ///< a store may know one without its topic
    std::vector<KnownSheet> sheets;
};

/// Random worlds, the same for the same seed everywhere.
class Random {
  public:
    explicit Random(unsigned seed) : bits_(seed) {}

    int below(int end) { return static_cast<int>(bits_() % static_cast<unsigned>(end)); }
    bool coin() { return below(2) == 0; }

    template <typename Element>
    void shuffle(std::vector<Element>& elements) {
        for (std::size_t i = elements.size(); i > 1; --i)
            std::swap(elements[i - 1], elements[static_cast<std::size_t>(below(static_cast<int>(i)))]);
    }

    World world();

    /// Puts the world, or some of it, into the store, in any order.
    void put(const World& world, bool all, Store& store);

  private:
    std::shared_ptr<const Paper> paper(int number);
    PartMarks marks(const Part& part);

    /// Which marks were earned, any of `max`.
    std::uint32_t earned(Marks unaided, Marks max);

    /// At work for as long as it takes, with breaks, then handed in.
    std::vector<ClockEvent> clock(Day day, std::size_t parts);

    /// `again` sets the days of one candidate's sittings of a paper apart.
    KnownSitting sitting(const std::string& code, const std::shared_ptr<const Paper>& paper, int again);

    void reattempt(const Question& question, KnownSitting& known);

    /// All turns, or of each question the first ones.
    void put(const KnownSitting& known, bool all, Store::Change& open);

    /// The turn after those on file, where it is known and, without `all`, by chance.
    void put_next_script(const KnownSitting& known, SittingId id, const Question& question, int turn,
                         bool all, Store::Change& open);

    void put_script(const KnownSitting& known, bool all, Store::Change& open);

    /// As far as it gets, never marked through; without `all` to any stage before that.
    void bring_on(Script& script, const std::vector<ClockEvent>& clock, const std::vector<PartMarks>& marks,
                  bool all, bool may_run);

    void add_facts(World& world);
    KnownSheet sheet(const std::string& code, Day day);
    void put_facts(const World& world, bool all, Store::Change& open);
    void add_plan(World& world);
    PlanWishes wishes();
    void put_plan(const World& world, bool all, Store::Change& open);
    Availability availability();
    StatedTimes class_times();

    std::mt19937 bits_;
};

/// Stores that know the whole of one world, or some of it each.
struct TwoStores {
    Store one = empty_store();
    Store other = empty_store();

    TwoStores(unsigned seed, bool all);
};

} // namespace inkturn::test
