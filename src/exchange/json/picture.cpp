#include "exchange/json/picture.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const std::vector<PictureOnFile>& pictures) {
    Json list = Json::array();
    for (const PictureOnFile& picture : pictures)
        list.push_back({{"picture", static_cast<std::int64_t>(picture.id)},
                        {"paper", picture.paper},
                        {"question", picture.question},
                        {"shows", name(picture.content)},
                        {"kind", name(picture.kind)},
                        {"width", picture.width},
                        {"height", picture.height},
                        {"bytes", picture.bytes}});
    return text_of({{"pictures", std::move(list)}});
}

} // namespace inkturn
