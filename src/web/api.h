#pragma once
// What the page calls: text in, text out.

extern "C" {

// A session; 0 where there is no memory for one.
void* leeway_open();
void leeway_close(void* session);

// The answer to a request, both JSON in UTF-8. It is valid until the next call on that session.
// Never throws.
const char* leeway_call(void* session, const char* request);

// The caller's: told how far long work is, from 0 to 1, or 0 as long as that is not known. Anything
// but 0 stops the work.
int leeway_progress(double done);
}
