"""What every sheet says where the work can hurt."""

ESTIMATE = "Estimates, not approved data: a licensed engineer or mechanic and the local authority decide."
SHOP = "Mount, weight and flight work: have a licensed engineer or mechanic check it before metal is cut."
SPINNING = "Guard what turns; nobody stands in the plane of a propeller."
