# Prints Kaplan-Meier curves worked out by R's package survival (T. Therneau; LGPL), for the checks in tests/published:
# - aml: survival in acute myelogenous leukaemia (R. G. Miller 1981, Survival Analysis, Wiley), each arm and both together;
# - lung: survival in advanced lung cancer (C. L. Loprinzi et al. 1994, J. Clin. Oncol. 12:601-607), many ties;
# - four: four losses and none left, where the curve lies at one half for a while;
# - open: the same, where it lies there to the end. The median is that of the package's summary; its quantile() takes the middle up to
#   the last look here, 2.5, instead of the beginning.
# To see that vectors.csv still stands, where R and its package survival are present (Debian: r-cran-survival):
#
#   Rscript tests/published/survival/aml.R | diff - tests/published/survival/vectors.csv

suppressPackageStartupMessages(library(survival))

sets <- list(
  maintained = aml[aml$x == "Maintained", c("time", "status")],
  nonmaintained = aml[aml$x == "Nonmaintained", c("time", "status")],
  aml = aml[, c("time", "status")],
  lung = data.frame(time = lung$time, status = lung$status - 1),
  four = data.frame(time = 1:4, status = 1),
  open = data.frame(time = c(1, 2, 3, 3), status = c(1, 1, 0, 0))
)

# A number R does not have is left empty.
text <- function(x) ifelse(is.finite(x), sprintf("%.8g", x), "")

curve <- function(name) {
  fit <- survfit(Surv(time, status) ~ 1, data = sets[[name]], conf.type = "log-log")
  middle <- summary(fit)$table
  cat(paste(name, fit$time, fit$n.risk, fit$n.event, fit$n.censor,
    text(fit$surv), text(fit$surv * fit$std.err), text(fit$lower), text(fit$upper),
    text(middle["median"]), text(middle["0.95LCL"]), text(middle["0.95UCL"]),
    sep = ","), sep = "\n")
}

cat("set,days,at_risk,lost,left,alive,std_err,low,high,median,median_low,median_high\n")
for (name in names(sets)) curve(name)
