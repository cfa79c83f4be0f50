#include "inkturn/clock/events.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <optional>

namespace inkturn {
namespace {

constexpr std::string_view blanks = " \t\r";
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::chrono::hours next_day_after{12};
constexpr std::size_t max_labels_listed = 10;

std::string_view trimmed(std::string_view text) {
    text.remove_prefix(std::min(text.find_first_not_of(blanks), text.size()));
    return text.substr(0, text.find_last_not_of(blanks) + 1);
}

/// Lower case, the blanks between words made one.
std::string plain(std::string_view text) {
    std::string words;
    for (const char c : text) {
        const bool blank = blanks.find(c) != std::string_view::npos;
        if (!blank)
            words += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        else if (words.back() != ' ')
            words += ' ';
    }
    return words;
}

std::string quoted(std::string_view text) {
    return "'" + std::string(text) + "'";
}

std::vector<ClockPart> unmeasured(const std::vector<std::string>& labels) {
    std::vector<ClockPart> parts;
    for (const std::string& label : labels)
        parts.push_back({label, Marks(0), Seconds(0)});
    return parts;
}

/// Reads the lines one by one, and takes the events on a clock to see whether they follow from one another.
class EventLines {
  public:
    EventLines(const std::vector<std::string>& labels, Moment midnight, std::vector<Problem>& problems)
        : labels_(labels),
          midnight_(midnight),
          problems_(problems),
          clock_(unmeasured(labels)),
          latest_(midnight) {}

    void read(std::string_view line) {
        ++line_;
        whole_line_ = line;
        const std::string_view event = trimmed(line.substr(0, line.find('#')));
        if (event.empty())
            return;
        is_first_event_ = last_event_line_ == 0;
        last_event_line_ = line_;
        const std::size_t end_of_time = std::min(event.find_first_of(blanks), event.size());
        const std::string_view what = trimmed(event.substr(end_of_time));
        const auto at = read_time(event.substr(0, end_of_time));
        const auto read = read_what(what);
        ends_with_hand_in_ = !read || read->kind == ClockEventKind::hand_in;
        if (read)
            take({read->kind, at.value_or(latest_), read->part});
    }

    std::vector<ClockEvent> finish() {
        if (last_event_line_ == 0)
            problems_.push_back({0, 0, "there is no event: begin with a line such as '09:00 start'"});
        else if (!ends_with_hand_in_)
            problems_.push_back(
                {last_event_line_, 0, "the last event is not 'hand in': add it with its time"});
        return std::move(events_);
    }

  private:
    struct What {
        ClockEventKind kind;
        std::size_t part;
    };

    /// Nothing where the text is no time; one that is out of order is taken after it is reported.
    std::optional<Moment> read_time(std::string_view text) {
        Seconds time{0};
        try {
            time = passed_ + parse_time_of_day(text);
        } catch (const Error& error) {
            report(text, error.what());
            return std::nullopt;
        }
        const bool out_of_order = last_time_ && time < *last_time_;
        if (out_of_order && passed_ == Seconds(0) && *last_time_ - time > next_day_after) {
            passed_ = std::chrono::hours{24};
            time += passed_;
        } else if (out_of_order) {
            report(text, quoted(text) + " is " + length_text(*last_time_ - time) +
                             " before the line above: give events in the order of time");
        }
        last_time_ = time;
        return midnight_ + time;
    }

    std::optional<What> read_what(std::string_view text) {
        const std::string words = plain(text);
        if (words == "rest")
            return What{ClockEventKind::rest, 0};
        if (words == "work")
            return What{ClockEventKind::work, 0};
        if (words == "hand in")
            return What{ClockEventKind::hand_in, 0};
        if (words == "start")
            return What{ClockEventKind::start, 0};
        constexpr std::string_view start_at = "start ";
        const bool starts = std::string_view(words).substr(0, start_at.size()) == start_at;
        const auto part = read_part(starts ? trimmed(text.substr(start_at.size())) : text);
        if (!part)
            return std::nullopt;
        return What{starts ? ClockEventKind::start : ClockEventKind::go, *part};
    }

    std::optional<std::size_t> read_part(std::string_view text) {
        const auto label = read_label(text);
        if (!label) {
            report(text, text.empty()
                             ? "a time without an event: write start, a part, rest, work or hand in"
                             : quoted(text) + " is no event: write start, a part, rest, work or hand in");
            return std::nullopt;
        }
        const auto found = std::find(labels_.begin(), labels_.end(), *label);
        if (found == labels_.end()) {
            report(text, "there is no part " + *label + ": " + parts_there());
            return std::nullopt;
        }
        return static_cast<std::size_t>(found - labels_.begin());
    }

    std::string parts_there() const {
        if (labels_.size() > max_labels_listed)
            return "the " + std::to_string(labels_.size()) + " parts go from " + labels_.front() + " to " +
                   labels_.back();
        std::string list;
        for (const std::string& label : labels_)
            list += (list.empty() ? "" : ", ") + label;
        return "write one of " + list;
    }

    /// What was reported already is not reported again in what follows from it: without a start that can be
    /// read the clock starts all the same, and it sees no time out of order.
    void take(const ClockEvent& event) {
        latest_ = events_.empty() ? event.at : std::max(latest_, event.at);
        if (is_first_event_ && event.kind != ClockEventKind::start)
            problems_.push_back({line_, 0, "the first event is not 'start': add it with its time"});
        if (events_.empty() && event.kind != ClockEventKind::start)
            clock_.take({ClockEventKind::start, latest_});
        events_.push_back(event);
        try {
            clock_.take({event.kind, latest_, event.part});
        } catch (const Error& error) {
            problems_.push_back({line_, 0, error.what()});
        }
    }

    void report(std::string_view field, std::string message) {
        const auto before = static_cast<std::size_t>(field.data() - whole_line_.data());
        problems_.push_back({line_, character_count(whole_line_.substr(0, before)) + 1, std::move(message)});
    }

    const std::vector<std::string>& labels_;
    Moment midnight_;
    std::vector<Problem>& problems_;
    Clock clock_;
    std::vector<ClockEvent> events_;
    std::string_view whole_line_;
    std::size_t line_ = 0;
    std::size_t last_event_line_ = 0;
    bool is_first_event_ = false;
    bool ends_with_hand_in_ = false;
    Seconds passed_{0};
    std::optional<Seconds> last_time_;
    Moment latest_;
};

} // namespace

std::vector<ClockEvent> read_events(std::string_view text, const std::vector<std::string>& labels,
                                    Moment midnight, std::vector<Problem>& problems) {
    if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
        text.remove_prefix(byte_order_mark.size());
    EventLines lines(labels, midnight, problems);
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.read(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines.finish();
}

} // namespace inkturn
