#pragma once

#include "inkturn/base/day.hpp"
#include "view/figure/figures.hpp"
#include "view/page/html_table.hpp"
#include "view/page/report_topics.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What a report on a class and one paper shows. It names no candidate. All texts are plain: the page escapes
/// them. Where there is nothing, the page says so.
struct ClassReport {
    std::string paper;                ///< its id
    std::string paper_title;          ///< empty: none
    std::string subject;              ///< of the paper; empty: none
    std::string of_class;             ///< empty: all on file
    Day day;                          ///< on which it was made
    HtmlTable figures;                ///< of the whole paper, as paper_page_table() has them
    std::vector<std::string> missing; ///< why figures are missing: sentences, or empty ones
    std::vector<PartEarned> parts;    ///< in the paper's order
    TotalsSpread spread;              ///< one total per candidate; no bands if no boundary set fits
    ReportTopics topics;              ///< of all the subject's papers, the one to look at first leads
};

/// A page of HTML that stands alone, for a phone, a desk and A4.
std::string to_html(const ClassReport& report);

} // namespace inkturn
