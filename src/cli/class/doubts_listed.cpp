#include "cli/class/doubts_listed.hpp"

#include "cli/csv_options.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <ostream>
#include <vector>

namespace inkturn {

std::size_t list_doubts(const Context& context, const std::string& file, const FileDoubts& doubts) {
    constexpr std::size_t max_listed = 5;
    const std::vector<FileDoubt> open = doubts.open();
    std::vector<DoubtKind> kinds;
    std::size_t count = 0;
    for (std::size_t i = 0; i < open.size(); ++i) {
        const bool is_first = kinds.empty() || kinds.back() != open[i].kind;
        if (is_first) {
            kinds.push_back(open[i].kind);
            count = 0;
        }
        if (++count <= max_listed)
            context.err << visible(file) << place_text(open[i].at) << ": " << visible(open[i].at.message)
                        << '\n';
        const bool is_last = i + 1 == open.size() || open[i + 1].kind != open[i].kind;
        if (is_last && doubts.count(open[i].kind) > max_listed)
            context.err << "and " << doubts.count(open[i].kind) - max_listed << " more like it\n";
    }
    context.err << "Correct the file, or say how it is meant:\n";
    for (const DoubtKind kind : kinds)
        for (const DoubtAnswer& answer : {answers_to(kind).as_read, answers_to(kind).otherwise})
            if (answer.name != nullptr)
                context.err << "  --accept " << fitted(answer.name, 15) << "  " << answer.does << '\n';
    return kinds.size();
}

std::optional<DateOrder> date_order_named(const std::string& name) {
    if (name.empty())
        return std::nullopt;
    if (name == "dmy")
        return DateOrder::day_month_year;
    if (name == "mdy")
        return DateOrder::month_day_year;
    if (name == "ymd")
        return DateOrder::year_month_day;
    throw Error("--date-order '" + name + "': use dmy, mdy or ymd");
}

} // namespace inkturn
