#include "view/page/html.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/base64.hpp"
#include "inkturn/base/sha256.hpp"
#include "view/text/text.hpp"

#include <cstdio>

namespace inkturn {
namespace {

/// Styles may be in the page: all foreign text in it is escaped, and a style couldn't load anything anyway.
/// A script is told by its digest (Content Security Policy Level 3, 2.3.1).
std::string policy_of(const HtmlPage& page) {
    std::string policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; ";
    if (!page.script.empty())
        policy += "script-src 'sha256-" + base64(sha256(page.script)) + "'; ";
    return policy + "base-uri 'none'; form-action 'none'";
}

} // namespace

std::string escaped(std::string_view text) {
    std::string html;
    for (const char c : visible(text)) {
        switch (c) {
        case '&':
            html += "&amp;";
            break;
        case '<':
            html += "&lt;";
            break;
        case '>':
            html += "&gt;";
            break;
        case '"':
            html += "&quot;";
            break;
        case '\'':
            html += "&#39;";
            break;
        default:
            html += c;
        }
    }
    return html;
}

std::string paragraph(std::string_view plain, std::string_view name) {
    const std::string attribute = name.empty() ? "" : " class=\"" + std::string(name) + '"';
    return "<p" + attribute + ">" + escaped(plain) + "</p>\n";
}

std::string folded(std::string_view summary, std::string_view html) {
    return "<details>\n<summary>" + escaped(summary) + "</summary>\n" + std::string(html) + "</details>\n";
}

std::string css_string(std::string_view text) {
    std::string css = "\"";
    for (const char c : visible(text)) {
        if (is_letter_or_digit(c) || !is_ascii(c)) {
            css += c;
            continue;
        }
        char code[8];
        std::snprintf(code, sizeof code, "\\%x ", static_cast<unsigned>(c));
        css += code;
    }
    return css + '"';
}

std::string to_html(const HtmlPage& page) {
    std::string html = "<!DOCTYPE html>\n"
                       "<html lang=\"en-GB\">\n"
                       "<head>\n"
                       "<meta charset=\"utf-8\">\n";
    html += "<meta http-equiv=\"Content-Security-Policy\" content=\"" + policy_of(page) + "\">\n";
    html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    html += "<title>" + escaped(page.title) + "</title>\n";
    html += "<style>\n" + page.style + "</style>\n";
    html += "</head>\n<body>\n" + page.body;
    if (!page.script.empty())
        html += "<script>" + std::string(page.script) + "</script>\n";
    html += "</body>\n</html>\n";
    return html;
}

} // namespace inkturn
