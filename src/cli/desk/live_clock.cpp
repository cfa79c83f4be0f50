#include "cli/desk/live_clock.hpp"

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

class LiveClock {
  public:
    LiveClock(const Context& context, Store& store, Script& script)
        : store_(store),
          script_(script),
          clock_(clock_of(script)),
          bold_(context.takes_styles()),
          rung_(clock_.state(now()).ink_changed_at.has_value()) {}

    ClockExit run() {
        for (;;) {
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
    enum class Asking { nothing, part, hand_in };

    /// Never before the last event, even if the machine's clock was set back.
    Moment now() const {
        const Moment now = moment_now();
        return script_.events.empty() ? now : std::max(now, script_.events.back().at);
    }

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

    std::vector<std::string> key_lines() const {
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
        if (asking_ == Asking::hand_in)
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
        const ClockEvent event{kind, now(), part};
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

std::optional<Moment> wait_for_start(const Context& context, Moment start, ClockExit& clock_exit) {
    LiveTerminal terminal;
    for (;;) {
        const Moment now = moment_now();
        if (now >= start)
            return start;
        terminal.draw({"Starts at " + local_time_text(start) + ", in " + length_text(start - now),
                       "s start now  q leave"},
                      {}, context.takes_styles());
        const Wake wake = terminal.wait(until_next_second());
        clock_exit.signal = wake.signal;
        if (wake.why == Wake::Why::end || wake.key == "q")
            return std::nullopt;
        if (wake.key == "s")
            return moment_now();
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
