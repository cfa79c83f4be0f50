#include "inkturn/plan/place.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/plan/later_turns.hpp"
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

/// Rooms for what is missed once more, of which most or all fit beside what is planned.
std::vector<LaterRetry> tight_rooms(std::mt19937& dice, TimeAhead& time) {
    const int days = pick(dice, 14, 28);
    for (int i = 0; i < days; ++i) {
        const Seconds available = pick(dice, 0, 2) == 0 ? Seconds(0) : minutes(15 * pick(dice, 2, 6));
        time.days.push_back({available, std::max(Seconds(0), available - minutes(pick(dice, 0, 9))), false});
    }
    std::vector<LaterRetry> rooms;
    for (int i = pick(dice, 10, 18); i > 0; --i) {
        const int opens = pick(dice, 0, days - 1);
        const int closes = std::min(opens + pick(dice, 7, 14), days - 1);
        rooms.push_back({2, Seconds(20 * pick(dice, 3, 20)), {{day(opens), day(closes)}}});
        if (closes < days - 1)
            rooms.back().spans.push_back({day(closes + 1), day(days - 1)});
    }
    return rooms;
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
            const DayTime& one = instance.time.days[t];
            const std::string available = std::to_string((one.available - one.done).count());
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

TEST_CASE("days of what is missed once more against GLPK on 40 tight instances: hardly more is without room",
          "[reference][long]") {
    const TempFolder folder;
    std::mt19937 dice(61);
    Seconds all{0};
    Seconds least_without{0};
    Seconds without{0};
    int short_of_room = 0;
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        Instance instance;
        const std::vector<LaterRetry> rooms = tight_rooms(dice, instance.time);
        for (const LaterRetry& room : rooms)
            instance.pieces.push_back({room.work, room.spans});
        const auto days = days_for_later(instance.time, rooms);
        Seconds left_out{0};
        for (std::size_t i = 0; i < rooms.size(); ++i) {
            all += rooms[i].work;
            left_out += days[i] ? Seconds(0) : rooms[i].work;
        }
        Programme programme(instance);
        const Seconds least = programme.least_without(folder);
        CHECK(least <= left_out);
        short_of_room += least > Seconds(0) ? 1 : 0;
        least_without += least;
        without += left_out;
    }
    CHECK(short_of_room >= 10);
    CHECK(short_of_room < 40);
    CHECK(without - least_without <= all / 50); // 33 minutes of 35 hours, measured
}
