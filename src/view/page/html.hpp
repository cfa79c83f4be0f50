#pragma once

#include <string>
#include <string_view>

namespace inkturn {

/// The text as it may stand between tags or in a quoted attribute: made visible() first, so that no control
/// character and no change of direction gets through, then `&`, `<`, `>` and both quotes as entities.
std::string escaped(std::string_view text);

/// A paragraph of a plain text, of this class where one is named.
std::string paragraph(std::string_view plain, std::string_view name = "");

/// The text, made visible(), as a quoted string of a style sheet, for what a printed page says in its margin.
/// It holds no character by which it could leave the string, the rule or the style element.
std::string css_string(std::string_view text);

/// A page that stands alone: no script, and no request but for its own file.
struct HtmlPage {
    std::string title; ///< plain text
    std::string style; ///< CSS
    std::string body;  ///< HTML, with all foreign text escaped()
};

/// In British English, with a policy by which a browser loads pictures out of the page itself and nothing
/// else.
std::string to_html(const HtmlPage& page);

} // namespace inkturn
