#pragma once

#include <string>
#include <string_view>

namespace inkturn {

/// The text for use between tags or in a quoted attribute: made visible() first, so that no control
/// character and no change of direction gets through, then `&`, `<`, `>` and both quotes as entities.
std::string escaped(std::string_view text);

/// A paragraph of plain text, with this class if one is named.
std::string paragraph(std::string_view plain, std::string_view name = "");

/// Details that a reader can unfold, and that are printed only if unfolded.
std::string folded(std::string_view summary, std::string_view html);

/// The text, made visible(), as a quoted string of a style sheet, for the margin of a printed page.
/// Nothing in it can end the string, the rule or the style element.
std::string css_string(std::string_view text);

/// A page that stands alone: no request beyond its own file.
struct HtmlPage {
    std::string title;         ///< plain text
    std::string style;         ///< CSS
    std::string body;          ///< HTML, with all foreign text escaped()
    std::string_view script{}; ///< a constant of ours, the same on every page; empty: none may run
};

/// Marked as British English, with a policy that lets a browser load pictures from the page itself, run the
/// page's script, which it tells by its digest, and nothing else.
std::string to_html(const HtmlPage& page);

} // namespace inkturn
