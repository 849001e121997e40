/** The names that scripts and other people's tooling rely on: they may be added to, never renamed. */
const words = (text: string): string[] => text.trim().split(/\s+/);

/** Settings by section. */
export const fixedSettings: Record<string, string[]> = {
  board: words("model text-edition flashed-on note"),
  frame: words("motors propeller-diameter propeller-pitch propeller-blades mass ducts"),
  pack: words(`chemistry cells capacity full-at warn-at land-at warn-after reserve discharge-rating hover-current
    full-current divider-top divider-bottom adc-bits adc-reference shunt shunt-gain`),
  link: words(`band channels order reversed endpoints centre deadband packet-rate lost-after resolution on-loss
    two-level`),
  modes: [],
  outputs: [],
  safety: words(`arm-tilt-limit arm-throttle-limit arm-hold idle-disarm-after spin-when-armed arm-needs-fix`),
  failsafe: words("hold-for then descend-throttle descend-for resume-after"),
  osd: words("grid picture pilot-name"),
  "osd-second": words("pilot-name"),
  video: words("signal frequency power power-steps power-disarmed camera-picture viewer-grid region"),
  motors: words(`poles kv esc-signal esc-rate esc-pause esc-rating idle limit reversible spin
    motor1 motor2 motor3 motor4 motor5 motor6 motor7 motor8`),
  sensors: words(`gyro-rate loop-rate mount-roll mount-pitch mount-yaw accelerometer barometer compass
    level-trim-roll level-trim-pitch`),
  filters: words("smooth-gyro smooth-d notch motor-notches"),
  gains: words("roll pitch yaw level-stiffness throttle-fade"),
  "gains-second": words("roll pitch yaw level-stiffness throttle-fade"),
  rates: words("roll pitch yaw throttle-curve throttle-limit"),
  "rates-second": words("roll pitch yaw throttle-curve throttle-limit"),
  adjust: [],
  camera: words("tilt uptilt"),
  finder: words("motors tone after-lost after-idle"),
  lights: words("count colour pattern brightness"),
  recorder: words("to rate space"),
  navigation: words("fix-needs return-height return-speed home-radius obstacle-height start-distance"),
  ports: words("port1 port2 port3 port4 port5 port6 port7 port8"),
  bench: words(`roll pitch throttle yaw order-checked direction-checked motors-checked mount-checked failsafe-checked
    pack-volts-read pack-volts-shown`),
  transmitter: words("band power"),
  controls: [],
  verbatim: [],
};

/** Fields, by SECTION.NAME. */
export const fixedFields: Record<string, string[]> = {
  "motors.motor1": words("place direction output limit"),
  "filters.smooth-gyro": words("cut order"),
  "filters.smooth-d": words("cut order"),
  "filters.notch": words("at width"),
  "filters.motor-notches": words("count floor width"),
  "gains.roll": words("p i d feed"),
  "gains.yaw": words("p i d feed"),
  "rates.roll": words("slope end bend"),
  "rates.yaw": words("slope end bend"),
};

/** Choices, by SECTION.NAME. */
export const fixedChoices: Record<string, string[]> = {
  "pack.chemistry": words("lipo lihv li-ion"),
  "link.on-loss": words("silent hold preset"),
  "safety.arm-tilt-limit": ["any"],
  "failsafe.then": words("stop descend return"),
  "osd.grid": words("pal ntsc"),
  "osd.picture": words("4:3 16:9"),
  "video.signal": words("analogue digital"),
  "video.viewer-grid": ["same"],
  "motors.esc-signal": words("pulse digital"),
  "motors.spin": words("props-in props-out"),
  "recorder.to": words("flash card off"),
  "ports.port1": words("receiver video gps esc-data recorder spare"),
};

export const fixedModes = words(`arm arm-permit level level-blend level-now turtle grip-at-idle finder lights lights-off
  video-low video-high recorder return-home hold-height hold-place rates-second gains-second osd-hide osd-second
  launch-hold camera-tilt`);

export const fixedElements = words(`pack-volts cell-volts amps used-capacity pack-bar time-left link-quality signal
  flight-time power-time throttle mode craft pilot alerts sight horizon-line heading height climb speed home-arrow
  home-distance satellites latitude longitude video-channel video-power esc-heat board-heat clock lap g-force
  stick-trace-left stick-trace-right recorder-left message`);
