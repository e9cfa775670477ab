#pragma once
// The one place of the version: CMakeLists.txt and `leeway --version` read it here.

#define LEEWAY_VERSION "0.1.0"
