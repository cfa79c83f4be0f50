#include "view/page/phone_marks.hpp"

#include "inkturn/paper/reason.hpp"
#include "view/page/html.hpp"
#include "view/text/text.hpp"

#include <array>

namespace inkturn {
namespace {

constexpr std::array<const char*, 3> inks{"in time", "overtime", "corrected"};
constexpr std::array<const char*, 3> names_of_inks{"in-time", "overtime", "corrected"};

std::string why_field(const std::string& id) {
    std::string html = "<label>why marks went<select id=\"" + id + "-why\"><option value=\"\"></option>";
    for (const Reason reason : all_reasons)
        html += "<option>" + std::string(name(reason)) + "</option>";
    return html + "<option value=\"-\">not attempted</option></select></label>\n";
}

std::string part_fields(const Retry& retry, const Part& part) {
    const std::string id = escaped(to_text(retry.id) + "-" + part.label);
    std::string html = "<fieldset class=\"part\" data-part=\"" + escaped(part.label) + "\" data-max=\"" +
                       marks_number(part.max) + "\"><legend>Part " +
                       escaped(part.label + ", " + counted_marks(part.max)) + "</legend>\n";
    for (std::size_t i = 0; i < inks.size(); ++i) {
        const std::string ink = names_of_inks[i];
        html.append("<label class=\"").append(ink).append("\">").append(inks[i]);
        html.append("<input id=\"").append(id).append("-").append(ink);
        html += "\" inputmode=\"numeric\" maxlength=\"3\" autocomplete=\"off\"></label>\n";
    }
    return html + why_field(id) + "</fieldset>\n";
}

} // namespace

std::string phone_marks(const Retry& retry) {
    std::string html = "<div class=\"marks\">\n<label class=\"day-done\">done on<input class=\"done\" id=\"" +
                       escaped(to_text(retry.id)) + "-done\" type=\"date\" autocomplete=\"off\"></label>\n";
    for (const std::size_t position : retry.paper_question().parts)
        html += part_fields(retry, retry.paper->part(position));
    return html + "</div>\n";
}

} // namespace inkturn
