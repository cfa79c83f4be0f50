#include "inkturn/plan/remedy.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 4> remedy_names{"more_minutes", "longer_day", "fewer_papers",
                                                       "days_off"};
constexpr std::chrono::minutes remedy_step{5};
constexpr std::chrono::minutes max_remedy_time{180};
constexpr Days max_days_tried{400}; ///< for days off
constexpr Seconds whole_day{24 * 3600};

/// The least amount up to `most` with which it fits, if more never fits worse.
std::optional<std::size_t> smallest_that(std::size_t most, const std::function<bool(std::size_t)>& fits) {
    if (most < 1 || !fits(most))
        return std::nullopt;
    std::size_t too_little = 0;
    std::size_t enough = most;
    while (enough - too_little > 1) {
        const std::size_t middle = (too_little + enough) / 2;
        (fits(middle) ? enough : too_little) = middle;
    }
    return enough;
}

void add_time(Seconds& time, Seconds more) {
    if (time > Seconds(0))
        time = std::min(time + more, whole_day);
}

class Remedies {
  public:
    Remedies(const Candidate& candidate, const TimetableRequest& request, Day today)
        : candidate_(candidate),
          request_(request),
          today_(today),
          papers_(sittings_ahead(candidate, {request.papers, request.on_desk, request.share, false}, today)) {
    }

    std::vector<Remedy> found() const {
        std::vector<Remedy> remedies;
        if (const auto steps =
                smallest_that(static_cast<std::size_t>(max_remedy_time / remedy_step),
                              [&](std::size_t count) { return fits(longer(count * remedy_step)); }))
            remedies.emplace_back(MoreTime{*steps * remedy_step});
        if (const auto remedy = longer_day())
            remedies.emplace_back(*remedy);
        if (const auto remedy = fewer_papers())
            remedies.emplace_back(*remedy);
        if (const auto remedy = days_used())
            remedies.emplace_back(*remedy);
        return remedies;
    }

  private:
    bool fits(const Candidate& candidate) const {
        return shortfall(candidate, request_, today_) == Seconds(0);
    }

    Candidate longer(Seconds more) const {
        Candidate longer = candidate_;
        for (Seconds& time : longer.availability.week)
            add_time(time, more);
        for (auto& [day, time] : longer.availability.dates)
            add_time(time, more);
        return longer;
    }

    unsigned longest_weekday() const {
        const auto& week = candidate_.availability.week;
        unsigned longest = 0;
        for (unsigned i = 0; i < week.size(); ++i)
            if (week[i] >= week[longest])
                longest = i;
        return longest;
    }

    /// Of the time that the longest paper takes.
    std::optional<LongerDay> longer_day() const {
        Seconds needed{0};
        for (const PaperToSit& paper : papers_.papers)
            needed = std::max(needed, paper.block.work);
        const Seconds in_all = (needed + remedy_step - Seconds(1)) / remedy_step * remedy_step;
        const unsigned weekday = longest_weekday();
        Candidate longer = candidate_;
        Seconds& time = longer.availability.week[weekday];
        if (in_all <= time || in_all > whole_day)
            return std::nullopt;
        time = in_all;
        if (!fits(longer))
            return std::nullopt;
        return LongerDay{in_all, weekday};
    }

    std::optional<FewerPapers> fewer_papers() const {
        std::map<std::string, std::size_t> to_sit;
        for (const PaperToSit& paper : papers_.papers)
            ++to_sit[paper.subject];
        std::optional<FewerPapers> least;
        for (const auto& entry : to_sit) {
            const std::string& subject = entry.first; // a lambda may not capture a structured binding
            const std::size_t count = entry.second;
            const auto fewer = smallest_that(
                count, [&](std::size_t less) { return fits(with_papers(subject, count - less)); });
            if (fewer && (!least || *fewer < least->fewer))
                least = FewerPapers{subject, *fewer, count - *fewer};
        }
        return least;
    }

    Candidate with_papers(const std::string& subject, std::size_t count) const {
        Candidate fewer = candidate_;
        fewer.wishes.papers[subject] = {static_cast<int>(count),
                                        latest_day}; // what was sat is not among them
        return fewer;
    }

    std::optional<UseDaysOff> days_used() const {
        std::vector<Day> off = days_off();
        const auto used =
            smallest_that(off.size(), [&](std::size_t count) { return fits(with_days_used(off, count)); });
        if (!used)
            return std::nullopt;
        off.resize(*used);
        return UseDaysOff{std::move(off), candidate_.availability.week[longest_weekday()]};
    }

    /// From today to the last exam.
    std::vector<Day> days_off() const {
        Day end = today_;
        for (const Exam& exam : candidate_.exams)
            end = std::max(end, exam.day);
        end = std::min(end, today_ + max_days_tried);
        std::vector<Day> off;
        for (Day day = today_; day < end; day += Days{1})
            if (candidate_.availability.time_set(day) == Seconds(0))
                off.push_back(day);
        return off;
    }

    Candidate with_days_used(const std::vector<Day>& off, std::size_t count) const {
        Candidate used = candidate_;
        for (std::size_t i = 0; i < count; ++i)
            used.availability.dates[off[i]] = candidate_.availability.week[longest_weekday()];
        return used;
    }

    const Candidate& candidate_;
    const TimetableRequest& request_;
    Day today_;
    SittingsAhead papers_;
};

} // namespace

std::string_view name(const Remedy& remedy) noexcept {
    return remedy_names[remedy.index()];
}

std::vector<Remedy> remedies(const Candidate& candidate, const TimetableRequest& request, Day today) {
    TimetableRequest anew = request;
    anew.mode = PlacementMode::again; // as timetable() does where days chosen before do not fit
    return Remedies(candidate, anew, today).found();
}

} // namespace inkturn
