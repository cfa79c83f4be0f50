#include "view/page/data_uri.hpp"

#include "inkturn/base/base64.hpp"

namespace inkturn {

std::string data_uri(const Picture& picture) {
    std::string uri = picture.kind == PictureKind::png ? "data:image/png;base64," : "data:image/jpeg;base64,";
    append_base64(uri, picture.bytes);
    return uri;
}

} // namespace inkturn
