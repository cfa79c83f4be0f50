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
          papers_(sittings_ahead(candidate, {request.papers, request.on_desk, request.share}, today)) {}

    std::vector<Remedy> found() const {
        std::vector<Remedy> remedies;
        if (const auto steps =
                least(max_extra_minutes / step_minutes, [&](int count) { return longer(count); }))
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
    /// The least amount with which a plan fits.
    std::optional<int> least(int most, const std::function<Candidate(int)>& with) const {
        return least_that_fits(most, [&](int amount) { return work_ahead(with(amount), request_, today_); });
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

    /// In steps from what it has.
    std::optional<Remedy> longer_day() const {
        const unsigned weekday = longest_weekday();
        const Seconds now = candidate_.availability.week[weekday];
        const auto with = [&](int steps) {
            Candidate longer = candidate_;
            longer.availability.week[weekday] = now + std::chrono::minutes{steps * step_minutes};
            return longer;
        };
        const auto room = std::chrono::duration_cast<std::chrono::minutes>(whole_day - now).count();
        const auto steps =
            least(static_cast<int>(std::min<std::int64_t>(room, max_extra_minutes)) / step_minutes, with);
        if (!steps)
            return std::nullopt;
        const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(now).count();
        return Remedy{Remedy::Kind::longer_day, static_cast<int>(minutes) + *steps * step_minutes, weekday};
    }

    std::optional<Remedy> fewer_papers() const {
        std::map<std::string, int> to_sit;
        for (const PaperToSit& paper : papers_.papers)
            ++to_sit[paper.subject];
        std::optional<Remedy> fewest;
        for (const auto& [subject, count] : to_sit) {
            const auto fewer =
                least(fewest ? std::min(count, fewest->amount - 1) : count,
                      [&, &name = subject, all = count](int less) { return with_papers(name, all - less); });
            if (fewer) {
                fewest = Remedy{Remedy::Kind::fewer_papers, *fewer};
                fewest->subject = subject;
                fewest->remaining = count - *fewer;
            }
        }
        return fewest;
    }

    Candidate with_papers(const std::string& subject, int count) const {
        Candidate fewer = candidate_;
        fewer.wishes.papers[subject] = {count, latest_day}; // what was sat is not among them
        return fewer;
    }

    std::optional<Remedy> days_used() const {
        std::vector<Day> off = days_off();
        const auto used =
            least(static_cast<int>(off.size()), [&](int count) { return with_days_used(off, count); });
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
    anew.mode = PlacementMode::again;
    return Remedies(candidate, anew, today).found();
}

} // namespace inkturn
