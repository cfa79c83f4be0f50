#include "exchange/json/paper_read.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const PaperRead& read, const PrintedPaper& paper, const PrintedScheme& scheme) {
    Json document{{"paper", read.id},
                  {"kept", read.pictures_kept.has_value()},
                  {"pictures", read.pictures_kept.value_or(0)},
                  {"pages", read.pages}};
    document.update(value_of(paper, scheme));
    return text_of(document);
}

} // namespace inkturn
