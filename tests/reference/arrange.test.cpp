#include "inkturn/plan/arrange.hpp"

#include "catch.hpp"
#include "dice.hpp"
#include "inkturn/retry/retry.hpp"
#include "reference/glpsol.hpp"
#include "temp_folder.hpp"

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

constexpr Day first{date::year{2026} / date::September / 7};
constexpr Seconds unit{300}; ///< all times are a number of these, so that evenness is linear by steps

struct Instance {
    Capacity capacity{first, {}};
    std::vector<Load> loads;
    std::vector<Block> blocks;
};

/// Few enough pieces for spread() to be exact.
Instance small_instance(std::mt19937& engine) {
    Instance instance;
    const int days = pick(engine, 24, 30);
    for (int i = 0; i < days; ++i)
        instance.capacity.available.push_back(pick(engine, 0, 3) == 0 ? Seconds(0)
                                                                      : unit * pick(engine, 1, 4));
    const auto day = [](int distance) { return first + Days{distance}; };
    for (int block = 0; block < 2; ++block) {
        const int opens = 3 * block;
        Block made{{{day(opens), day(opens + 3)}}, unit * pick(engine, 2, 4), {}, {}, {}};
        for (int i = pick(engine, 1, 2); i > 0; --i)
            made.expected_retries.push_back(unit * pick(engine, 1, 3));
        if (pick(engine, 0, 2) == 0)
            made.exam = day(pick(engine, 16, days - 1));
        instance.blocks.push_back(made);
    }
    for (int i = pick(engine, 1, 3); i > 0; --i) {
        const int opens = pick(engine, 0, 20);
        instance.loads.push_back(
            {day(opens), day(std::min(days - 1, opens + pick(engine, 0, 6))), unit * pick(engine, 1, 4), {}});
    }
    return instance;
}

/// The integer programme in CPLEX LP format. Its objective is one of three; those before it are held at
/// their optimum.
class Programme {
  public:
    explicit Programme(const Instance& instance) : instance_(instance) {
        for (std::size_t i = 0; i < instance.loads.size(); ++i)
            add_load("load" + std::to_string(i), instance.loads[i]);
        for (std::size_t i = 0; i < instance.blocks.size(); ++i)
            add_block("block" + std::to_string(i), instance.blocks[i]);
        add_days();
    }

    enum class Least { over, left_out, evenness };

    /// Evenness in seconds, the others in units.
    double least(Least what, const TempFolder& folder) {
        const std::string& text = what == Least::over       ? over_
                                  : what == Least::left_out ? left_out_
                                                            : evenness_;
        const std::filesystem::path programme = folder.path() / "arrange.lp";
        const std::filesystem::path solution = folder.path() / "arrange.out";
        std::ofstream out(programme);
        out << "Minimize\n least:" << text << "\nSubject To\n"
            << constraints_ << held_ << "Bounds\n"
            << bounds_ << "Binary\n"
            << binaries_ << "End\n";
        out.close();
        run_glpsol(programme, solution);
        const double found = objective(solution);
        if (what != Least::evenness)
            held_ += (what == Least::over ? " held_over:" : " held_left_out:") + text +
                     " <= " + std::to_string(static_cast<long>(found + 0.5)) + "\n";
        return found;
    }

  private:
    std::size_t at(Day day) const { return static_cast<std::size_t>((day - first).count()); }
    bool has_time(Day day) const { return instance_.capacity.available[at(day)] > Seconds(0); }

    void ask(Day day, Seconds work, const std::string& choice) {
        asked_[at(day)] += " + " + std::to_string(work / unit) + " " + choice + "\n";
    }

    void add_load(const std::string& name, const Load& load) {
        std::string sum;
        for (Day day = load.opens; day <= load.closes; day += Days{1})
            if (has_time(day)) {
                const std::string choice = name + "_" + std::to_string(at(day));
                ask(day, load.work, choice);
                sum += " + " + choice;
                binaries_ += " " + choice + "\n";
            }
        if (sum.empty()) // all days off: the first is asked
            days_off_ += load.work / unit;
        else
            constraints_ += " " + name + ":" + sum + " = 1\n";
    }

    void add_block(const std::string& name, const Block& block) {
        std::vector<Day> days;
        for (Day day = block.spans.front().first; day <= block.spans.front().last; day += Days{1})
            if (instance_.capacity.available[at(day)] >= block.work)
                days.push_back(day);
        std::string sum;
        for (const Day day : days) {
            const std::string choice = name + "_" + std::to_string(at(day));
            ask(day, block.work, choice);
            blocks_on_[at(day)] += " + " + choice;
            sum += " + " + choice;
            binaries_ += " " + choice + "\n";
        }
        const std::string out = name + "_out";
        binaries_ += " " + out + "\n";
        constraints_ += " " + name + ":" + sum + " + " + out + " = 1\n";
        left_out_ += " + " + std::to_string(block.work / unit) + " " + out;
        for (std::size_t i = 0; i < block.expected_retries.size(); ++i)
            add_reservation(name, i, block, days);
    }

    /// On one day of the window of the day that the block takes.
    void add_reservation(const std::string& block_name, std::size_t number, const Block& block,
                         const std::vector<Day>& days) {
        const std::string name = block_name + "_foreseen" + std::to_string(number);
        std::string sum;
        std::vector<std::string> allowed(instance_.capacity.available.size());
        std::string without;
        for (const Day day : days) {
            const auto window = retry_window(day, block.exam);
            bool any = false;
            for (Day on = window ? window->opens : day; window && on <= std::min(window->closes, last());
                 on += Days{1})
                if (has_time(on)) {
                    allowed[at(on)] += " - " + block_name + "_" + std::to_string(at(day));
                    any = true;
                }
            const Day end = block.exam ? std::min(last(), *block.exam - Days{1}) : last();
            for (Day on = window ? window->closes + Days{1} : end + Days{1}; !any && on <= end; on += Days{1})
                if (has_time(on)) {
                    allowed[at(on)] += " - " + block_name + "_" + std::to_string(at(day));
                    any = true;
                }
            if (!any)
                without += " + " + block_name + "_" + std::to_string(at(day));
        }
        for (std::size_t i = 0; i < allowed.size(); ++i) {
            if (allowed[i].empty())
                continue;
            const std::string choice = name + "_" + std::to_string(i);
            ask(first + Days{i}, block.expected_retries[number], choice);
            sum += " + " + choice;
            constraints_ += " allow_" + choice + ": " + choice + allowed[i] + " <= 0\n";
            binaries_ += " " + choice + "\n";
        }
        if (!without.empty()) { // no day is left for it: over
            const std::string choice = name + "_without";
            sum += " + " + choice;
            over_ += " + " + std::to_string(block.expected_retries[number] / unit) + " " + choice;
            constraints_ += " allow_" + choice + ": " + choice + negated(without) + " <= 0\n";
            binaries_ += " " + choice + "\n";
        }
        constraints_ += " " + name + ":" + sum + " + " + block_name + "_out = 1\n";
    }

    static std::string negated(std::string sum) {
        std::replace(sum.begin(), sum.end(), '+', '-');
        return sum;
    }

    Day last() const { return first + Days{instance_.capacity.available.size() - 1}; }

    /// Asked² ÷ available by steps of one unit, each dearer than the one before.
    void add_days() {
        for (std::size_t i = 0; i < asked_.size(); ++i) {
            const auto available = instance_.capacity.available[i];
            if (available == Seconds(0) || asked_[i].empty())
                continue;
            const std::string number = std::to_string(i);
            over_ += " + over" + number;
            constraints_ += " limit" + number + ":" + asked_[i] + " - over" + number +
                            " <= " + std::to_string(available / unit) + "\n";
            std::string steps;
            for (int step = 0; step < 24; ++step) {
                const std::string name = "step" + number + "_" + std::to_string(step);
                std::ostringstream dear;
                dear.precision(17);
                dear << (2 * step + 1) * static_cast<double>(unit.count()) *
                            static_cast<double>(unit.count()) / static_cast<double>(available.count());
                evenness_ += " + " + dear.str() + " " + name + "\n";
                steps += " - " + name + "\n";
                bounds_ += " " + name + " <= 1\n";
            }
            constraints_ += " steps" + number + ":" + asked_[i] + steps + " = 0\n";
            if (!blocks_on_[i].empty())
                constraints_ += " one_block" + number + ":" + blocks_on_[i] + " <= 1\n";
        }
    }

    const Instance& instance_;
    std::vector<std::string> asked_ = std::vector<std::string>(instance_.capacity.available.size());
    std::vector<std::string> blocks_on_ = std::vector<std::string>(instance_.capacity.available.size());
    std::string constraints_;
    std::string held_;
    std::string bounds_;
    std::string binaries_;
    std::string over_;
    std::string left_out_;
    std::string evenness_;

  public:
    long days_off_ = 0; ///< units of loads that have days off alone
};

} // namespace

TEST_CASE("papers, loads and foreseen retries are arranged as GLPK (glpsol) does on 40 instances",
          "[reference]") {
    const TempFolder folder;
    std::mt19937 engine(2026);
    int left_out = 0;
    int over = 0;
    for (int i = 0; i < 40; ++i) {
        CAPTURE(i);
        const Instance instance = small_instance(engine);
        const Arrangement found = arrange(instance.capacity, instance.loads, instance.blocks);
        Seconds out{0};
        for (std::size_t block = 0; block < instance.blocks.size(); ++block)
            if (!found.blocks[block])
                out += instance.blocks[block].work;

        Programme programme(instance);
        const double min_over = programme.least(Programme::Least::over, folder);
        const auto over_units = static_cast<double>(found.over / unit - programme.days_off_);
        REQUIRE_THAT(over_units, WithinAbs(min_over, 1e-6));
        REQUIRE_THAT(static_cast<double>(out / unit),
                     WithinAbs(programme.least(Programme::Least::left_out, folder), 1e-6));
        CHECK_THAT(found.evenness, WithinAbs(programme.least(Programme::Least::evenness, folder), 1e-3));
        left_out += out > Seconds(0) ? 1 : 0;
        over += found.over > Seconds(0) ? 1 : 0;
    }
    CHECK(left_out >= 10);
    CHECK(left_out < 40);
    CHECK(over >= 5);
}
