#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <termios.h>

namespace inkturn {

/// What woke a LiveTerminal.
struct Wake {
    enum class Why { time, key, redraw, end };
    Why why = Why::time;
    std::string key{}; ///< what one key sent: a character, or an escape sequence
    int signal = 0;    ///< of end: the signal; 0: the terminal was closed
};

/// The terminal as a few lines that are drawn over and over, and keys one at a time. While it lives, keys
/// show no echo and the signals that end or stop a program are taken; afterwards, and while the program is
/// stopped, the terminal is as it was found. One at a time.
class LiveTerminal {
  public:
    LiveTerminal();  ///< standard input and output are a terminal
    ~LiveTerminal(); ///< its lines are wiped away
    LiveTerminal(const LiveTerminal&) = delete;
    LiveTerminal& operator=(const LiveTerminal&) = delete;

    /// Draws printable lines in place of those drawn before, each cut to the width, then the message, broken
    /// into lines; the last ones are left out where the terminal has fewer rows. The first is bold where that
    /// is asked for. A terminal that can't go back a line shows the first, or the message, alone.
    void draw(std::vector<std::string> lines, const std::string& message, bool bold);
    void ring();

    /// Waits until a key comes, the size changes, the program is to end, or the time is over.
    Wake wait(std::chrono::milliseconds max);

  private:
    void take();
    void give_back();
    void stop();

    termios found_{};
    bool can_go_up_;
    std::string keys_; ///< read and not yet given
};

} // namespace inkturn
