#include "exchange/workbook/sheet_choice.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t max_sheets_listed = 20;

/// "'Set 1', 'Set 2' and 'Notes' (hidden)", the first of them if there are many.
std::string listed(const std::vector<ListedSheet>& sheets) {
    std::string list;
    for (std::size_t i = 0; i < sheets.size() && i < max_sheets_listed; ++i) {
        if (i > 0)
            list += i + 1 == sheets.size() ? " and " : ", ";
        list += '\'' + sheets[i].name + '\'' + (sheets[i].is_hidden ? " (hidden)" : "");
    }
    if (sheets.size() > max_sheets_listed)
        list += " and " + std::to_string(sheets.size() - max_sheets_listed) + " more";
    return list;
}

std::size_t named(const std::vector<ListedSheet>& sheets, const std::string& name) {
    std::vector<std::string> names;
    for (const ListedSheet& sheet : sheets) {
        if (sheet.name == name)
            return names.size();
        names.push_back(sheet.name);
    }
    if (const auto near = nearest_name(name, names))
        throw Error("the workbook has no sheet '" + name + "'; did you mean '" + *near + "'?");
    throw Error("the workbook has no sheet '" + name + "'; it has " + listed(sheets));
}

} // namespace

std::size_t SheetChoice::among(const std::vector<ListedSheet>& sheets,
                               const std::function<bool(std::size_t sheet)>& has_content) const {
    if (sheets.empty())
        throw Error("the workbook has no sheet of cells");
    if (name_)
        return named(sheets, *name_);
    std::vector<std::size_t> with_content;
    std::vector<ListedSheet> their_names;
    for (std::size_t i = 0; i < sheets.size(); ++i)
        if (!sheets[i].is_hidden && has_content(i)) {
            with_content.push_back(i);
            their_names.push_back(sheets[i]);
        }
    if (with_content.size() == 1)
        return with_content.front();
    if (with_content.empty())
        throw Error("no sheet of the workbook has anything in it, but for hidden ones; it has " +
                    listed(sheets));
    throw Error("the workbook has several sheets: say which with --sheet, one of " + listed(their_names));
}

} // namespace inkturn
