#pragma once
// The constant texts of the report's page, and their hashes for its content security policy.

namespace leeway {

// CSS and script as they stand between their tags, byte for byte.
extern const char* const kReportStyle;
extern const char* const kReportScript;

// SHA-256 in base64 of exactly these texts (CSP Level 3, 2.3.1). tests/web/policy.sh computes them
// anew, and tells what they are after a change.
extern const char* const kPlanStyleHash;  // plan_css()
extern const char* const kMapStyleHash;   // bracket_map_css()
extern const char* const kReportStyleHash;
extern const char* const kReportScriptHash;

}  // namespace leeway
