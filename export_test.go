package lapspan

import "context"

// ProposeWithoutCounting is Propose for rooms whose walls lean as if every range
// were too large to be gone through to the end.
func ProposeWithoutCounting(ctx context.Context, job Job) (Plan, error) { return propose(ctx, job, -1) }
