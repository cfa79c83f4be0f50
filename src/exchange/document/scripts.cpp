#include "exchange/document/scripts.hpp"

#include "exchange/document/difference.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn {
namespace {

auto order(const Script& script) {
    const bool is_retry = script.id.retry.has_value();
    return std::tuple(script.day, std::string_view(script.paper->id()), is_retry, script.id.sitting,
                      is_retry ? script.positions.front() : 0, is_retry ? script.id.retry->turn : 0);
}

bool clock_begins_with(const std::vector<ClockEvent>& clock, const std::vector<ClockEvent>& beginning) {
    return beginning.size() <= clock.size() &&
           std::equal(beginning.begin(), beginning.end(), clock.begin(), is_same);
}

} // namespace

void sort_scripts(std::vector<Script>& scripts) {
    std::sort(scripts.begin(), scripts.end(),
              [](const Script& a, const Script& b) { return order(a) < order(b); });
}

bool goes_on(const Script& later, const Script& earlier) {
    const auto stays = [](const std::optional<PartMarks>& before, const std::optional<PartMarks>& after) {
        return !before || (after && *before == *after);
    };
    return later.day == earlier.day && later.extra_time.percent() == earlier.extra_time.percent() &&
           clock_begins_with(later.events, earlier.events) &&
           std::includes(later.notes.begin(), later.notes.end(), earlier.notes.begin(),
                         earlier.notes.end()) &&
           std::equal(earlier.marks.begin(), earlier.marks.end(), later.marks.begin(), stays);
}

SittingId DeskMerge::add(const Paper& paper, const Sitting& sitting) {
    auto here = paper_on_desk(paper.id(), sitting.day);
    if (!here)
        return change_.add_sitting(code_, paper, sitting);
    check_became(*here, sitting.clock);
    here->extra_time = sitting.extra_time;
    here->events = sitting.clock;
    here->notes = amended(here->notes, sitting.notes);
    here->marks.assign(sitting.parts.begin(), sitting.parts.end());
    desk_.finish(*here);
    return here->id.sitting;
}

void DeskMerge::was_recorded(const RetryId& id, const Reattempt& reattempt) {
    const auto here = Desk::find(change_.store(), script_id(id));
    if (!here)
        return;
    check_became(*here, reattempt.clock);
    desk_.remove(here->id);
}

void DeskMerge::take(Script in_file, bool is_done) {
    if (is_done) {
        leave_out(in_file, "it is already marked here");
        return;
    }
    in_file.candidate = code_;
    const auto here = in_file.id.retry ? Desk::find(change_.store(), in_file.id)
                                       : paper_on_desk(in_file.paper->id(), in_file.day);
    if (!here)
        put(std::move(in_file), here, merge_.scripts_added);
    else if (goes_on(*here, in_file))
        ++merge_.scripts_unchanged;
    else if (goes_on(in_file, *here))
        put(std::move(in_file), here, merge_.scripts_completed);
    else if (options_.replace)
        put(std::move(in_file), here, merge_.scripts_replaced);
    else
        leave_out(in_file, *difference(*here, in_file) + "; --replace takes the file's");
}

std::string DeskMerge::name_of(const Script& script) const {
    const std::string sitting = "candidate " + code_ + ", " + script.paper->id();
    if (!script.id.retry)
        return sitting + " of " + iso(script.day);
    return sitting + ", question " + script.id.retry->question + ", turn " +
           std::to_string(script.id.retry->turn) + " of " + iso(script.day);
}

std::optional<Script> DeskMerge::paper_on_desk(const std::string& paper, Day day) const {
    for (Script& here : Desk::scripts(change_.store(), code_))
        if (!here.id.retry && here.paper->id() == paper && here.day == day)
            return std::move(here);
    return std::nullopt;
}

/// Another script whose clock is running.
std::optional<Script> DeskMerge::running_beside(const std::optional<Script>& here) const {
    for (Script& other : Desk::scripts(change_.store(), code_))
        if (!other.is_handed_in() && !(here && to_text(here->id) == to_text(other.id)))
            return std::move(other);
    return std::nullopt;
}

void DeskMerge::check_became(const Script& here, const std::vector<ClockEvent>& clock) {
    if (!clock_begins_with(clock, here.events) && !options_.replace)
        merge_.refuse(name_of(here) + ": the script " + to_text(here.id) +
                      " here, still to mark, has a different clock from the one in the file; "
                      "--replace takes the file's");
    ++merge_.scripts_finished;
}

void DeskMerge::leave_out(const Script& in_file, const std::string& why) {
    merge_.left_out.push_back(name_of(in_file) + ", still to mark in the file: " + why);
}

void DeskMerge::put(Script in_file, const std::optional<Script>& here, std::size_t& count) {
    const auto running = in_file.is_handed_in() ? std::nullopt : running_beside(here);
    if (running) {
        leave_out(in_file, "its clock is running, and so is that of " + to_text(running->id) +
                               " here; hand that in first");
        return;
    }
    if (here) {
        in_file.id = here->id;
        desk_.change(in_file);
    } else {
        desk_.add(in_file);
    }
    ++count;
}

} // namespace inkturn
