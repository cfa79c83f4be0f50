#include "cli/versions.hpp"

#include "exchange/libraries.hpp"
#include "inkturn/store/store.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

namespace inkturn {

std::string version_text() {
    return "inkturn " INKTURN_VERSION "\nstore layout " + std::to_string(newest_store_version()) + '\n' +
           wrapped("libraries: " + joined(library_versions(), ", "), text_width(), 2);
}

} // namespace inkturn
