#include "inkturn/plan/remedy.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 4> remedy_names{"more_minutes", "longer_day", "fewer_papers",
                                                       "days_off"};
constexpr int step_minutes = 5;
constexpr int max_extra_minutes = 180;
constexpr Days max_days_tried{400}; ///< for days off
constexpr Seconds whole_day{24 * 3600};

/// The least amount up to `most` with which it fits, if more never fits worse.
std::optional<int> smallest_that(int most, const std::function<bool(int)>& fits) {
    if (most < 1 || !fits(most))
        return std::nullopt;
    int too_little = 0;
    int enough = most;
    while (enough - too_little > 1) {
        const int middle = (too_little + enough) / 2;
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
        if (const auto steps = smallest_that(max_extra_minutes / step_minutes,
                                             [&](int count) { return fits(longer(count)); }))
            remedies.push_back({Remedy::Kind::more_minutes, *steps * step_minutes});
        if (const auto remedy = longer_day())
            remedies.push_back(*remedy);
        if (const auto remedy = fewer_papers())
            remedies.push_back(*remedy);
        if (const auto remedy = days_used())
            remedies.push_back(*remedy);
        return remedies;
    }

  private:
    bool fits(const Candidate& candidate) const {
        return shortfall(candidate, request_, today_) == Seconds(0);
    }

    Candidate longer(int steps) const {
        Candidate longer = candidate_;
        const std::chrono::minutes more{steps * step_minutes};
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
    std::optional<Remedy> longer_day() const {
        Seconds needed{0};
        for (const PaperToSit& paper : papers_.papers)
            needed = std::max(needed, paper.block.work);
        const auto minutes =
            static_cast<int>((needed.count() + 60 * step_minutes - 1) / (60 * step_minutes)) * step_minutes;
        const unsigned weekday = longest_weekday();
        Candidate longer = candidate_;
        Seconds& time = longer.availability.week[weekday];
        if (std::chrono::minutes{minutes} <= time || std::chrono::minutes{minutes} > whole_day)
            return std::nullopt;
        time = std::chrono::minutes{minutes};
        if (!fits(longer))
            return std::nullopt;
        return Remedy{Remedy::Kind::longer_day, minutes, weekday};
    }

    std::optional<Remedy> fewer_papers() const {
        std::map<std::string, int> to_sit;
        for (const PaperToSit& paper : papers_.papers)
            ++to_sit[paper.subject];
        std::optional<Remedy> least;
        for (const auto& [subject, count] : to_sit) {
            const auto fewer = smallest_that(
                count, [&, all = count](int less) { return fits(with_papers(subject, all - less)); });
            if (fewer && (!least || *fewer < least->amount)) {
                least = Remedy{Remedy::Kind::fewer_papers, *fewer};
                least->subject = subject;
                least->remaining = count - *fewer;
            }
        }
        return least;
    }

    Candidate with_papers(const std::string& subject, int count) const {
        Candidate fewer = candidate_;
        fewer.wishes.papers[subject] = {count, latest_day}; // what was sat is not among them
        return fewer;
    }

    std::optional<Remedy> days_used() const {
        std::vector<Day> off = days_off();
        const auto used = smallest_that(static_cast<int>(off.size()),
                                        [&](int count) { return fits(with_days_used(off, count)); });
        if (!used)
            return std::nullopt;
        Remedy remedy{Remedy::Kind::days_off, *used};
        off.resize(static_cast<std::size_t>(*used));
        remedy.days = std::move(off);
        remedy.available = candidate_.availability.week[longest_weekday()];
        return remedy;
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

    Candidate with_days_used(const std::vector<Day>& off, int count) const {
        Candidate used = candidate_;
        for (int i = 0; i < count; ++i)
            used.availability.dates[off[static_cast<std::size_t>(i)]] =
                candidate_.availability.week[longest_weekday()];
        return used;
    }

    const Candidate& candidate_;
    const TimetableRequest& request_;
    Day today_;
    SittingsAhead papers_;
};

} // namespace

std::string_view name(Remedy::Kind kind) noexcept {
    return remedy_names[static_cast<std::size_t>(kind)];
}

std::vector<Remedy> remedies(const Candidate& candidate, const TimetableRequest& request, Day today) {
    TimetableRequest anew = request;
    anew.mode = PlacementMode::again; // as timetable() does where days chosen before do not fit
    return Remedies(candidate, anew, today).found();
}

} // namespace inkturn
