#include "cli/desk/live_clock.hpp"

#include "cli/computer_clock.hpp"
#include "cli/desk/live_terminal.hpp"
#include "cli/local_time.hpp"
#include "cli/remedies.hpp"
#include "cli/terminal.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/clock_face.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <csignal>
#include <ostream>

namespace inkturn {
namespace {

using std::chrono::milliseconds;

constexpr std::size_t max_label_length = 12;

milliseconds until_next_second() {
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    return milliseconds{1001} - std::chrono::duration_cast<milliseconds>(now) % Seconds{1};
}

bool is_next(const std::string& key) {
    return key == "n" || key == "\x1b[C" || key == "\x1b[B" || key == "\x1bOC" || key == "\x1bOB";
}
bool is_back(const std::string& key) {
    return key == "b" || key == "\x1b[D" || key == "\x1b[A" || key == "\x1bOD" || key == "\x1bOA";
}
bool is_enter(const std::string& key) {
    return key == "\n" || key == "\r";
}
bool is_erase(const std::string& key) {
    return key == "\x7f" || key == "\b";
}

ClockStart started_now() {
    const ClockReading reading = clocks_now();
    return {reading.wall, reading};
}

class LiveClock {
  public:
    LiveClock(const Context& context, Store& store, Script& script)
        : store_(store),
          script_(script),
          clock_(clock_of(script)),
          bold_(context.takes_styles()),
          rung_(clock_.state(now()).ink_changed_at.has_value()) {
        if (!is_same_start(script_.events.back().reading, clocks_now()) && !time().doubt)
            settle(now()); // so that jumps are noticed from here on
    }

    ClockExit run() {
        for (;;) {
            look_at_clocks();
            draw();
            const Wake wake = terminal_.wait(until_next_second());
            if (wake.why == Wake::Why::end)
                return {false, wake.signal};
            if (wake.why == Wake::Why::key)
                press(wake.key);
            if (script_.is_handed_in() || left_)
                return {script_.is_handed_in(), std::nullopt};
        }
    }

  private:
    enum class Asking { nothing, part, hand_in, which_time };

    TimeNow time() const {
        const ClockEvent& last = script_.events.back();
        return time_now(last.at, last.reading, clocks_now());
    }
    Moment now() const { return time().at; }

    bool is_resting() const { return clock_.state(now()).stage == ClockStage::resting; }

    void draw() {
        const Moment at = now();
        if (!rung_ && clock_.state(at).ink_changed_at) {
            terminal_.ring();
            rung_ = true;
        }
        std::vector<std::string> lines = clock_face(clock_, at);
        for (const std::string& line : key_lines())
            lines.push_back(line);
        terminal_.draw(lines, message_, bold_);
    }

    /// While the wall clock is in doubt nothing else is asked.
    void look_at_clocks() {
        const auto doubt = time().doubt;
        if (doubt) {
            if (asking_ != Asking::which_time || message_.empty())
                say(jump_text(*doubt));
            asking_ = Asking::which_time;
        } else if (asking_ == Asking::which_time) { // it was set right again
            asking_ = Asking::nothing;
            message_.clear();
        }
    }

    static std::string jump_text(const ClockDoubt& doubt) {
        const bool forward = doubt.jump > Seconds(0);
        const std::string length = length_text(forward ? doubt.jump : -doubt.jump);
        if (!doubt.by_steady)
            return "The computer was restarted, and its clock shows " + length +
                   " less than at the last key. How long ago that was is not known.";
        return "The computer's clock jumped " + length + (forward ? " forward" : " back") +
               " since the last key. Which time counts?";
    }

    std::vector<std::string> doubt_lines() const {
        const auto doubt = time().doubt;
        const Moment last = script_.events.back().at;
        std::vector<std::string> lines;
        if (doubt && !doubt->by_steady)
            lines.push_back("p go on from the last key");
        if (doubt && doubt->by_steady) {
            lines.push_back("p the time that passed: " + length_text(*doubt->by_steady - last));
            lines.push_back("w as the clock shows it: " + length_text(doubt->by_wall - last));
        }
        lines.push_back("q leave, nothing decided");
        return lines;
    }

    /// Kept with the last event, so that it is not asked again.
    void answer_which_time(const std::string& key) {
        const auto doubt = time().doubt;
        if (key == "q")
            left_ = true;
        else if (doubt && key == "p" && settle(doubt->by_steady.value_or(doubt->by_wall)))
            answered("Times of day go on as they were before the clock was set.");
        else if (doubt && key == "w" && doubt->by_steady && settle(doubt->by_wall))
            answered("Counted as the clock shows it.");
    }

    void answered(const std::string& message) {
        asking_ = Asking::nothing;
        say(message);
    }

    bool settle(Moment at) {
        const ClockReading reading = clocks_now();
        return store([&](Desk& desk, Script& script) { desk.settle_clock(script, reading, at); });
    }

    std::vector<std::string> key_lines() const {
        if (asking_ == Asking::which_time)
            return doubt_lines();
        if (asking_ == Asking::hand_in)
            return {"Hand in? y yes, any other key no"};
        if (asking_ == Asking::part)
            return {"To part: " + typed_ + "_", "Enter goes there, Esc stays"};
        if (is_resting())
            return {"r back to work  h hand in", "u take the last key back", "q leave, the break goes on"};
        return {"n next  b back  g to a part  h hand in", "r rest  u take the last key back",
                "q leave, the clock runs on"};
    }

    void press(const std::string& key) {
        message_.clear();
        if (asking_ == Asking::which_time)
            answer_which_time(key);
        else if (asking_ == Asking::hand_in)
            answer_hand_in(key);
        else if (asking_ == Asking::part)
            type_part(key);
        else
            press_plain(key);
    }

    void press_plain(const std::string& key) {
        const std::size_t part = *clock_.state(now()).part;
        if (is_next(key))
            go_or_say(set_after(part), "This is the last part.");
        else if (is_back(key))
            go_or_say(set_before(part), "This is the first part.");
        else if (key == "g" || (key.size() == 1 && key[0] >= '0' && key[0] <= '9'))
            ask_part(key == "g" ? "" : key);
        else if (key == "r")
            happen(is_resting() ? ClockEventKind::work : ClockEventKind::rest);
        else if (key == "h")
            asking_ = Asking::hand_in;
        else if (key == "u")
            take_back();
        else if (key == "q")
            left_ = true;
    }

    std::optional<std::size_t> set_after(std::size_t part) const {
        for (++part; part < script_.positions.size(); ++part)
            if (script_.is_set(part))
                return part;
        return std::nullopt;
    }

    std::optional<std::size_t> set_before(std::size_t part) const {
        while (part-- > 0)
            if (script_.is_set(part))
                return part;
        return std::nullopt;
    }

    void go_or_say(std::optional<std::size_t> part, const std::string& otherwise) {
        part ? go(*part) : say(otherwise);
    }

    void ask_part(const std::string& typed) {
        asking_ = Asking::part;
        typed_ = typed;
    }

    void type_part(const std::string& key) {
        if (is_enter(key)) {
            asking_ = Asking::nothing;
            go_to(typed_);
        } else if (key == "\x1b") {
            asking_ = Asking::nothing;
        } else if (is_erase(key) && !typed_.empty()) {
            typed_.pop_back();
        } else if (key.size() == 1 && key[0] > ' ' && key[0] < '\x7f' && typed_.size() < max_label_length) {
            typed_ += key;
        }
    }

    void go_to(const std::string& typed) {
        const auto label = read_label(typed);
        const auto& parts = clock_.parts();
        const auto found = std::find_if(parts.begin(), parts.end(),
                                        [&](const ClockPart& part) { return label && part.label == *label; });
        const auto place = static_cast<std::size_t>(found - parts.begin());
        if (found != parts.end() && script_.is_set(place))
            go(place);
        else if (found != parts.end())
            say("Part " + typed + " was not set.");
        else if (!typed.empty())
            say("There's no part " + typed + ": the parts run from " + parts.front().label + " to " +
                parts.back().label + ".");
    }

    void go(std::size_t part) {
        if (is_resting())
            say("Resting: press r to go back to work first.");
        else
            happen(ClockEventKind::go, part);
    }

    void answer_hand_in(const std::string& key) {
        asking_ = Asking::nothing;
        if (key == "y" || key == "Y")
            happen(ClockEventKind::hand_in);
    }

    void happen(ClockEventKind kind, std::size_t part = 0) {
        const ClockReading reading = clocks_now();
        const ClockEvent& last = script_.events.back();
        const ClockEvent event{kind, time_now(last.at, last.reading, reading).at, part, reading};
        store([&](Desk& desk, Script& script) {
            Clock(clock_).take(event);
            desk.add_event(script, event);
        });
    }

    /// Time since then counts as if it had not been pressed.
    void take_back() {
        const ClockEvent last = script_.events.back();
        if (script_.events.size() < 2) {
            say("Nothing to take back: the clock has only been started.");
            return;
        }
        if (store([](Desk& desk, Script& script) { desk.take_back_event(script); }))
            say("Taken back: " + event_text(last) + ".");
        rung_ = rung_ && clock_.state(now()).ink_changed_at.has_value();
    }

    std::string event_text(const ClockEvent& event) const {
        const std::string what = event.kind == ClockEventKind::rest ? "rest"
                                 : event.kind == ClockEventKind::work
                                     ? "back to work"
                                     : "to part " + clock_.parts()[event.part].label;
        return what + " at " + local_time_text(event.at);
    }

    /// What can't be stored hasn't happened: the clock runs on and shows why.
    template <typename Work>
    bool store(const Work& work) {
        try {
            Script script = script_;
            Store::Change change(store_);
            Desk desk(change);
            work(desk, script);
            change.commit();
            clock_ = clock_of(script);
            script_ = std::move(script);
            return true;
        } catch (const Error& error) {
            say("Not stored: " + worded(error));
            return false;
        }
    }

    void say(const std::string& message) { message_ = visible(message); }

    Store& store_;
    Script& script_;
    Clock clock_;
    bool bold_;
    bool rung_;
    bool left_ = false;
    Asking asking_ = Asking::nothing;
    std::string typed_;
    std::string message_;
    LiveTerminal terminal_;
};

} // namespace

void check_clock_has_terminal(const std::string& command) {
    if (!stdin_is_terminal() || !stdout_is_terminal())
        throw Error(command + " needs a terminal for its clock; use --events FILE for times noted by hand");
}

std::optional<ClockStart> wait_for_start(const Context& context, Moment start, ClockExit& clock_exit) {
    LiveTerminal terminal;
    const ClockReading before = clocks_now();
    for (;;) {
        const ClockReading reading = clocks_now();
        const Moment now = reading.wall;
        if (now > start + max_jump &&
            before.wall < start) // missed while it slept, or by a jump: seen from before
            return ClockStart{start, earlier(before, before.wall - start)};
        if (now >= start)
            return ClockStart{start, earlier(reading, now - start)};
        terminal.draw({"Starts at " + local_time_text(start) + ", in " + length_text(start - now),
                       "s start now  q leave"},
                      {}, context.takes_styles());
        const Wake wake = terminal.wait(until_next_second());
        clock_exit.signal = wake.signal;
        if (wake.why == Wake::Why::end || wake.key == "q")
            return std::nullopt;
        if (wake.key == "s")
            return started_now();
    }
}

ClockExit run_live_clock(const Context& context, Store& store, Script& script) {
    context.out.flush();
    return LiveClock(context, store, script).run();
}

void end_by(int signal) {
    std::signal(signal, SIG_DFL);
    std::raise(signal);
}

} // namespace inkturn
