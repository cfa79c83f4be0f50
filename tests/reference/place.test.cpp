#include "inkturn/plan/place.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "reference/glpsol.hpp"
#include "temp_folder.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Day first{date::year{2026} / date::September / 7};

Day day(int distance) {
    return first + Days{distance};
}

Seconds minutes(int count) {
    return std::chrono::minutes(count);
}

struct Instance {
    TimeAhead time{first, {}};
    std::vector<WorkPiece> pieces;
};

/// Retries, papers, topics and facts that nearly fill three weeks or are too much for them.
Instance tight_instance(std::mt19937& dice) {
    Instance instance;
    const int days = pick(dice, 14, 21);
    for (int i = 0; i < days; ++i)
        instance.time.days.push_back(
            {pick(dice, 0, 3) == 0 ? Seconds(0) : minutes(15 * pick(dice, 2, 6)), {}, false});
    const auto spans = [&](int opens, int closes) {
        std::vector<DaySpan> all{{day(opens), day(std::min(closes, days - 1))}};
        if (closes < days - 1)
            all.push_back({day(closes + 1), day(days - 1)});
        return all;
    };
    for (int i = pick(dice, 2, 5); i > 0; --i) {
        WorkPiece paper{minutes(pick(dice, 45, 80)), spans(0, pick(dice, 3, days - 1))};
        paper.paper = true;
        instance.pieces.push_back(paper);
    }
    for (int i = pick(dice, 4, 12); i > 0; --i) {
        const int opens = pick(dice, 0, days - 1);
        instance.pieces.push_back({Seconds(72 * pick(dice, 5, 25)), spans(opens, opens + 7)});
    }
    for (int i = 2 * pick(dice, 0, 2); i > 0; --i)
        instance.pieces.push_back({minutes(30), {{day(0), day(days - 1)}}});
    for (int i = pick(dice, 0, 3); i > 0; --i)
        instance.pieces.push_back({minutes(15), spans(pick(dice, 0, 6), 13)});
    return instance;
}

/// The integer programme in CPLEX LP format: first the seconds without a day, then, with these at their
/// least, those outside their windows.
class Programme {
  public:
    explicit Programme(const Instance& instance) {
        std::vector<std::string> loads(instance.time.days.size());
        std::vector<std::string> papers(loads.size());
        for (std::size_t i = 0; i < instance.pieces.size(); ++i) {
            const WorkPiece& piece = instance.pieces[i];
            const std::string work = std::to_string(piece.work.count());
            std::string sum = "none" + std::to_string(i);
            binaries_ += " " + sum + "\n";
            without_ += " + " + work + " " + sum + "\n";
            for (std::size_t rank = 0; rank < piece.spans.size(); ++rank)
                for (Day on = piece.spans[rank].first; on <= piece.spans[rank].last; on += Days{1}) {
                    const auto t = static_cast<std::size_t>((on - first).count());
                    const std::string choice = "piece" + std::to_string(i) + "_" + std::to_string(t);
                    sum += " + " + choice;
                    loads[t] += " + " + work + " " + choice + "\n";
                    if (piece.paper)
                        papers[t] += " + " + choice;
                    if (rank > 0)
                        outside_ += " + " + work + " " + choice + "\n";
                    binaries_ += " " + choice + "\n";
                }
            constraints_ += " once" + std::to_string(i) + ": " + sum + " = 1\n";
        }
        for (std::size_t t = 0; t < loads.size(); ++t) {
            const std::string available = std::to_string(instance.time.days[t].available.count());
            if (!loads[t].empty())
                constraints_ += " day" + std::to_string(t) + ":" + loads[t] + " <= " + available + "\n";
            if (!papers[t].empty())
                constraints_ += " paper" + std::to_string(t) + ":" + papers[t] + " <= 1\n";
        }
    }

    Seconds least_without(const TempFolder& folder) {
        const Seconds least = solved(without_, folder);
        constraints_ += " held:" + without_ + " <= " + std::to_string(least.count()) + "\n";
        return least;
    }

    Seconds least_outside(const TempFolder& folder) const {
        return outside_.empty() ? Seconds(0) : solved(outside_, folder);
    }

  private:
    Seconds solved(const std::string& least, const TempFolder& folder) const {
        const std::filesystem::path programme = folder.path() / "place.lp";
        const std::filesystem::path solution = folder.path() / "place.out";
        std::ofstream out(programme);
        out << "Minimize\n least:" << least << "\nSubject To\n"
            << constraints_ << "Binary\n"
            << binaries_ << "End\n";
        out.close();
        run_glpsol(programme, solution);
        return Seconds(std::llround(objective(solution)));
    }

    std::string constraints_;
    std::string without_;
    std::string outside_;
    std::string binaries_;
};

} // namespace

TEST_CASE("plans of all kinds of work against GLPK (glpsol) on 60 tight instances: what is said is true, and "
          "few miss the optimum",
          "[reference][long]") {
    const TempFolder folder;
    std::mt19937 dice(60);
    int not_found = 0;
    int missed = 0;
    int too_little_time = 0;
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        const Instance instance = tight_instance(dice);
        const WorkPlan plan = place_work(instance.time, instance.pieces);
        Programme programme(instance);
        const Seconds without = programme.least_without(folder);
        CHECK(plan.short_by <= without);
        CHECK(without <= plan.weight.without_day);
        if (plan.fit == PlanFit::too_little_time)
            CHECK(without > Seconds(0));
        not_found += plan.fit == PlanFit::not_found && without == Seconds(0) ? 1 : 0;
        too_little_time += plan.fit == PlanFit::too_little_time ? 1 : 0;
        if (plan.weight.without_day > without)
            ++missed;
        else if (plan.weight.outside > programme.least_outside(folder))
            ++missed;
    }
    CHECK(too_little_time >= 10);
    CHECK(not_found <= 1);
    CHECK(missed <= 6);
}
