#include "inkturn/plan/remedy.hpp"

#include "inkturn/plan/steering.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 5> remedy_names{"more_minutes", "longer_day", "fewer_papers",
                                                       "days_off", "fewer_retries"};
constexpr std::chrono::minutes remedy_step{5};
constexpr std::chrono::minutes max_remedy_time{180};
constexpr Days max_days_tried{120}; ///< for days off
constexpr Seconds whole_day{24 * 3600};

void add_time(Seconds& time, Seconds more) {
    if (time > Seconds(0))
        time = std::min(time + more, whole_day);
}

class Remedies {
  public:
    Remedies(const Candidate& candidate, const TimetableRequest& request, Day today)
        : candidate_(candidate),
          request_(with_weak_topics(request, candidate)),
          today_(today),
          papers_(sittings_ahead(candidate, sittings_of(request), today)) {
        request_.turns = TurnsReserved::first;
        if (inkturn::has_plan(candidate, request_, today))
            request_.turns = request.turns;
    }

    std::vector<Remedy> found() const {
        std::vector<Remedy> remedies;
        if (const auto steps = least(static_cast<std::size_t>(max_remedy_time / remedy_step),
                                     [&](std::size_t count) { return longer(count * remedy_step); }))
            remedies.emplace_back(MoreTime{*steps * remedy_step});
        if (const auto remedy = longer_day())
            remedies.emplace_back(*remedy);
        if (const auto remedy = fewer_papers())
            remedies.emplace_back(*remedy);
        if (const auto remedy = days_used())
            remedies.emplace_back(*remedy);
        if (const auto remedy = fewer_retries())
            remedies.emplace_back(*remedy);
        return remedies;
    }

  private:
    /// The least amount from 1 on with which a plan fits. More may fit worse, so each is tried in turn.
    std::optional<std::size_t> least(std::size_t most,
                                     const std::function<Candidate(std::size_t)>& with) const {
        for (std::size_t amount = 1; amount <= most; ++amount)
            if (has_plan(with(amount)))
                return amount;
        return std::nullopt;
    }

    bool has_plan(const Candidate& candidate) const { return inkturn::has_plan(candidate, request_, today_); }

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

    /// In steps from what it has.
    std::optional<LongerDay> longer_day() const {
        const unsigned weekday = longest_weekday();
        const Seconds now = candidate_.availability.week[weekday];
        const auto with = [&](std::size_t steps) {
            Candidate longer = candidate_;
            longer.availability.week[weekday] = now + steps * remedy_step;
            return longer;
        };
        const Seconds room = std::min<Seconds>(whole_day - now, max_remedy_time);
        const auto steps = least(static_cast<std::size_t>(room / remedy_step), with);
        if (!steps)
            return std::nullopt;
        return LongerDay{now + *steps * remedy_step, weekday};
    }

    std::optional<FewerPapers> fewer_papers() const {
        std::map<std::string, std::size_t> to_sit;
        for (const PaperToSit& paper : papers_.papers)
            ++to_sit[paper.subject];
        std::optional<FewerPapers> fewest;
        for (const auto& entry : to_sit) {
            const std::string& subject = entry.first; // a lambda may not capture a structured binding
            const std::size_t count = entry.second;
            const auto fewer = least(fewest ? std::min(count, fewest->fewer - 1) : count,
                                     [&](std::size_t less) { return with_papers(subject, count - less); });
            if (fewer)
                fewest = FewerPapers{subject, *fewer, count - *fewer};
        }
        return fewest;
    }

    Candidate with_papers(const std::string& subject, std::size_t count) const {
        Candidate fewer = candidate_;
        fewer.wishes.papers[subject] = {static_cast<int>(count),
                                        latest_day}; // what was sat is not among them
        return fewer;
    }

    /// For work alone: none is dropped for what may come back.
    std::optional<FewerRetries> fewer_retries() const {
        if (request_.turns == TurnsReserved::all)
            return std::nullopt;
        const auto let_go = least_to_let_go(candidate_, request_, today_);
        if (!let_go)
            return std::nullopt;
        FewerRetries fewer{{}, Marks(0)};
        for (const Retry& retry : *let_go) {
            fewer.retries.push_back(retry.id);
            fewer.missed_marks += retry.missed_marks;
        }
        return fewer;
    }

    /// The first day that does it alone, else as few of the first ones as do it together.
    std::optional<UseDaysOff> days_used() const {
        std::vector<Day> off = days_off();
        for (const Day day : off)
            if (has_plan(with_days_used({day}, 1)))
                return UseDaysOff{{day}, candidate_.availability.week[longest_weekday()]};
        const auto used = least(off.size(), [&](std::size_t count) { return with_days_used(off, count); });
        if (!used)
            return std::nullopt;
        off.resize(*used);
        return UseDaysOff{std::move(off), candidate_.availability.week[longest_weekday()]};
    }

    /// From today to the last exam.
    std::vector<Day> days_off() const {
        Day end = today_;
        for (const Exam& exam : candidate_.exams)
            if (!exam.mock)
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
    TimetableRequest request_;
    Day today_;
    SittingsAhead papers_;
};

} // namespace

std::string_view name(const Remedy& remedy) noexcept {
    return remedy_names[remedy.index()];
}

std::vector<Remedy> remedies(const Candidate& candidate, const TimetableRequest& request, Day today) {
    return Remedies(candidate, request, today).found();
}

} // namespace inkturn
